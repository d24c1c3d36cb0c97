import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { loadLimits, loadSources } from '../../src/limits/limits.ts'
import { formatNumber } from '../../src/texts/format-quantity.ts'
import { LANGUAGES, loadTexts, sentencesOf, staysEnglish, TEMPLATES } from '../../src/texts/load-texts.ts'

const own = (language: string) =>
  sentencesOf(readFileSync(new URL(`texts/${language}.yaml`, TEMPLATES), 'utf8'))
const english = own('en')
const readers = Object.keys(english).filter((key) => !staysEnglish(key))
/** Figures of a sentence, whichever sign their decimals have. */
const figures = (text: string) =>
  (text.replaceAll(/(\d),(\d)/g, '$1.$2').match(/\d+(\.\d+)*/g) ?? []).toSorted()
const placeholders = (template: string) =>
  [...template.matchAll(/\{(\w+)(?::[\w.]+)?\}/g)].map((m) => m[1]!).toSorted()

describe.each(LANGUAGES.filter((language) => language !== 'en'))('%s', (language) => {
  const texts = own(language)

  test('has every sentence of the reader, and no other', () => {
    expect(readers.filter((key) => texts[key] === undefined)).toEqual([])
    expect(Object.keys(texts).filter((key) => !readers.includes(key))).toEqual([])
  })

  test('puts the same figures and words into every sentence', () => {
    const odd = readers.filter(
      (key) =>
        texts[key] !== undefined && String(placeholders(texts[key])) !== String(placeholders(english[key]!)),
    )
    expect(odd).toEqual([])
  })

  test('left no sentence in English', () => {
    const words = (text: string) => text.replace(/\{[^}]*\}/g, '').match(/\p{L}{3,}/gu)?.length ?? 0
    const alike = readers.filter((key) => words(english[key]!) > 3 && texts[key] === english[key])
    expect(alike).toEqual([])
  })

  test('says what every limit is for and where it comes from, and left none in English (proper names aside)', () => {
    const beside = sentencesOf(readFileSync(new URL(`limit-texts/${language}.yaml`, TEMPLATES), 'utf8'))
    const inEnglish = {
      ...Object.fromEntries(
        Object.entries(loadLimits()).map(([key, { meaning }]) => [`limit.${key}`, meaning]),
      ),
      ...Object.fromEntries(Object.entries(loadSources()).map(([key, text]) => [`source.${key}`, text])),
    }
    expect(Object.keys(beside).toSorted()).toEqual(Object.keys(inEnglish).toSorted())
    for (const [key, text] of Object.entries(inEnglish)) {
      expect(beside[key], key).not.toBe(text)
      expect(figures(beside[key]!), key).toEqual(figures(text))
    }
    expect(loadTexts(language).templates['limit.lateRisePct']).toBe(beside['limit.lateRisePct'])
  })

  test('what stays English is there', () => {
    const { templates } = loadTexts(language)
    for (const key of Object.keys(english)) expect(templates[key], key).toBeDefined()
  })
})

// Decimal and group signs by language. @source Unicode CLDR, numbers of es, fr and de, from memory
test.each([
  ['en', '12,345.6'],
  ['es', '12\u202f345,6'],
  ['fr', '12\u202f345,6'],
  ['de', '12\u202f345,6'],
])('numbers in %s', (language, shown) => {
  expect(formatNumber(12_345.6, 1, language)).toBe(shown)
})
