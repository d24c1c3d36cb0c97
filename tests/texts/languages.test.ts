import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { formatNumber } from '../../src/texts/format-quantity.ts'
import { LANGUAGES, loadTexts, sentencesOf, staysEnglish, TEMPLATES } from '../../src/texts/load-texts.ts'

const own = (language: string) => sentencesOf(readFileSync(new URL(`texts/${language}.yaml`, TEMPLATES), 'utf8'))
const english = own('en')
const readers = Object.keys(english).filter((key) => !staysEnglish(key))
const placeholders = (template: string) => [...template.matchAll(/\{(\w+)(?::[\w.]+)?\}/g)].map((m) => m[1]!).toSorted()

describe.each(LANGUAGES.filter((language) => language !== 'en'))('%s', (language) => {
  const texts = own(language)

  test('has every sentence of the reader, and no other', () => {
    expect(readers.filter((key) => texts[key] === undefined)).toEqual([])
    expect(Object.keys(texts).filter((key) => !readers.includes(key))).toEqual([])
  })

  test('puts the same figures and words into every sentence', () => {
    const odd = readers.filter((key) => texts[key] !== undefined && String(placeholders(texts[key])) !== String(placeholders(english[key]!)))
    expect(odd).toEqual([])
  })

  test('left no sentence in English', () => {
    const words = (text: string) => text.replace(/\{[^}]*\}/g, '').match(/\p{L}{3,}/gu)?.length ?? 0
    const alike = readers.filter((key) => words(english[key]!) > 3 && texts[key] === english[key])
    expect(alike).toEqual([])
  })

  test('what stays English is there', () => {
    const { templates } = loadTexts(language)
    for (const key of Object.keys(english)) expect(templates[key], key).toBeDefined()
  })
})

// Decimal and group signs by language. @source Unicode CLDR, numbers of es, fr and de, from memory
test.each([['en', '12,345.6'], ['es', '12.345,6'], ['fr', '12\u202f345,6'], ['de', '12.345,6']])('numbers in %s', (language, shown) => {
  expect(formatNumber(12_345.6, 1, language)).toBe(shown)
})
