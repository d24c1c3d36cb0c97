import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { LANGUAGES, loadTexts, sentencesOf, TEMPLATES } from '../../src/texts/load-texts.ts'

test.each(LANGUAGES)('the sentences of %s are those YAML reads', (language) => {
  const text = readFileSync(new URL(`texts/${language}.yaml`, TEMPLATES), 'utf8')
  const whole = parse(text) as Record<string, string>
  expect(sentencesOf(text)).toEqual(whole)
  expect(loadTexts(language).templates).toMatchObject(whole)
})

test.each([
  ['plain words', 'a: words\nb: "x"\n'],
  ['single quotes', "a: 'it''s'\n"],
  ['an escape of YAML alone', 'a: "\\x41\\e"\n'],
  ['a sentence over two lines', 'a: "one\n  two"\n'],
  ['a remark behind', 'a: "x" # remark\n'],
  ['a quote within', 'a: "say \\"x\\""\n'],
])('%s', (_, text) => expect(sentencesOf(text)).toEqual(parse(text)))

test('a key given twice is refused', () => expect(() => sentencesOf('a: "1"\na: "2"\n')).toThrow())

describe('a language that does not fit the English one is refused when it is read', () => {
  const spoilt = (from: RegExp, to: string) => (file: string) => {
    const text = readFileSync(new URL(file, TEMPLATES), 'utf8')
    return file === 'texts/de.yaml' ? text.replace(from, to) : text
  }
  const lineIn = (file: string, key: string) =>
    readFileSync(new URL(file, TEMPLATES), 'utf8')
      .split('\n')
      .findIndex((line) => line.startsWith(`${key}:`)) + 1

  test('as it ships it is read', () => {
    expect(loadTexts('de', spoilt(/$^/, '')).language).toBe('de')
  })

  test.each([
    ['a sentence is missing', /^list\.and: .*\n/m, '', 'list.and', 'texts/en.yaml', 'is not said'],
    [
      'a placeholder is missing',
      /^list\.and: .*$/m,
      'list.and: "{first}"',
      'list.and',
      'texts/de.yaml',
      'lacks {last}',
    ],
    [
      'a placeholder is mistyped',
      /^list\.and: .*$/m,
      'list.and: "{first} und {lsat}"',
      'list.and',
      'texts/de.yaml',
      '{lsat}',
    ],
    [
      'a format is none',
      /^list\.and: .*$/m,
      'list.and: "{first:d} und {last}"',
      'list.and',
      'texts/de.yaml',
      '{first:d}',
    ],
    [
      'a brace is left open',
      /^list\.and: .*$/m,
      'list.and: "{first} und {last} {"',
      'list.and',
      'texts/de.yaml',
      'has { beyond',
    ],
    [
      'a full stop to be left out is gone',
      /^(evidence\.smoke-leak: .*)\{\.\}"$/m,
      '$1."',
      'evidence.smoke-leak',
      'texts/de.yaml',
      'lacks {.}',
    ],
  ])('%s', (_, ...[from, to, key, file, why]) => {
    const read = spoilt(from, to)
    expect(() => loadTexts('de', read)).toThrow(`templates/${file}:${lineIn(file, key)}: “${key}”`)
    expect(() => loadTexts('de', read)).toThrow(why)
    expect(() => loadTexts('de', read)).toThrow('Mend templates/texts/de.yaml')
  })

  test('a sentence that the program does not know is told by its line', () => {
    const read = spoilt(/^list\.and: /m, 'list.nor: "weder"\nlist.and: ')
    expect(() => loadTexts('de', read)).toThrow(
      `templates/texts/de.yaml:${lineIn('texts/de.yaml', 'list.and')}: “list.nor” is no sentence`,
    )
  })
})
