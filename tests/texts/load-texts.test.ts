import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
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
