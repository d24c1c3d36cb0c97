import { describe, expect, test } from 'vitest'
import type { Result } from '../../../src/records/result.ts'
import { LANGUAGES, loadTexts } from '../../../src/texts/load-texts.ts'
import { pageOneOf, resultTelling, TOLD } from '../../support/page-one.ts'
import { readingGrade } from '../../support/reading-grade.ts'

const texts = loadTexts('en')

/** Sentences of ours: the words of customer and technician stand in quotation marks and are theirs. */
const ownSentences = (paragraphs: readonly string[]) =>
  paragraphs.map((text) => text.replaceAll(/“[^”]*”/g, 'this')).filter((text) => /[.!?]$/.test(text))
/** Numbers in some words, their digits not grouped. */
const numbersIn = (words: string) =>
  words.replaceAll(/(\d)[.,\u202f](?=\d{3}(?!\d))/g, '$1').match(/\d+([.,]\d+)?/g) ?? []

/** Every number that a record holds, as a number or within words of its own (dates, names, addresses). */
function numbersOf(value: unknown): string[] {
  if (typeof value === 'number') return [String(value)]
  if (typeof value === 'string')
    return value.match(/\d+/g)?.flatMap((digits) => [digits, String(Number(digits))]) ?? []
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersOf) : []
}

/** Numbers of page one that no field but the summary's own has. */
function unfounded(words: string, { summary, captures, ...fields }: Result): string[] {
  expect(summary.length).toBeGreaterThan(1)
  const sparks = captures.reduce((sum, { events, partial }) => sum + events - partial, 0)
  // Odds of 19 to 1 are the 95 % of the intervals, in plain words.
  const known = new Set([...numbersOf({ captures, ...fields }), String(sparks), '19', '1'])
  return numbersIn(words).filter((number) => !known.has(number))
}

/** Each page once: the tests below look at the same. */
const pages = new Map<string, Promise<{ result: Result; paragraphs: string[]; words: string }>>()
function pageOf(told: (typeof TOLD)[number]) {
  const made =
    pages.get(told.name) ??
    (async () => {
      const result = resultTelling(told, texts)
      return { result, ...(await pageOneOf(result, texts)) }
    })()
  pages.set(told.name, made)
  return made
}

test('all that page one can say is among the pages: every sentence of the summary, and of the page', async () => {
  const said = new Set(
    (await Promise.all(TOLD.map(pageOf))).flatMap(({ result }) => result.summary.map(({ key }) => key)),
  )
  // An engine of one cylinder is no kind of finding; `several` needs more than one cylinder.
  const never = ['summary.looked-one', 'summary.several-one', 'summary.open.not-judged-one']
  expect(
    Object.keys(texts.templates)
      .filter((key) => key.startsWith('summary.') && !said.has(key))
      .toSorted(),
  ).toEqual(never.toSorted())
}, 300_000)

describe('page one, whatever was found and however the repair came out', () => {
  test('can be read at school grade 8 (Flesch-Kincaid)', async () => {
    const hard: string[] = []
    for (const told of TOLD) {
      const page = ownSentences((await pageOf(told)).paragraphs).join(' ')
      expect(page.length).toBeGreaterThan(300)
      const grade = readingGrade(page)
      if (grade > 8) hard.push(`${grade.toFixed(2)} ${told.name}`)
    }
    expect(hard).toEqual([])
  }, 300_000)

  test('no passage by itself is beyond grade 10', async () => {
    const hard = new Set<string>()
    for (const told of TOLD)
      for (const sentence of ownSentences((await pageOf(told)).paragraphs))
        if (readingGrade(sentence) > 10) hard.add(`${readingGrade(sentence).toFixed(1)} ${sentence}`)
    expect([...hard]).toEqual([])
  }, 300_000)

  test("says every sentence of the summary, and every number on it is one of the result's fields", async () => {
    for (const told of TOLD) {
      const { result, words } = await pageOf(told)
      for (const { text } of result.summary) expect(words).toContain(text)
      expect([told.name, unfounded(words, result)]).toEqual([told.name, []])
    }
  }, 300_000)

  test('names the cylinders of its finding, and no other', async () => {
    for (const told of TOLD) {
      const { result } = await pageOf(told)
      const found = result.summary[1]!
      const { cylinders, pattern } = result.engine.before!
      const named =
        pattern === 'all' || cylinders.length === 0
          ? []
          : pattern.startsWith('bank')
            ? [pattern.slice('bank '.length), ...cylinders.map(String)]
            : cylinders.map(String)
      expect([told.name, numbersIn(found.text)]).toEqual([told.name, named])
    }
  }, 300_000)
})

test('a number that no field has is found', async () => {
  const { result, words } = await pageOf(TOLD[0]!)
  expect(unfounded(`${words} Also 7531 and 2.25.`, result)).toEqual(['7531', '2.25'])
})

test('page one says the same numbers in every language', async () => {
  for (const told of TOLD.filter((_, i) => i % 17 === 0)) {
    const numbers = await Promise.all(
      LANGUAGES.map(async (language) => {
        const own = loadTexts(language)
        const { words } = await pageOneOf(resultTelling(told, own), own)
        // The odds are said as a language says them: 19 to 1, or 19 of 20.
        const odds = own.templates['report.customer.certain-range']!
        expect(words).toContain(odds)
        // French groups digits with a space.
        return numbersIn(words.replace(odds, '').replaceAll(/(\d)\s(?=\d{3}(?!\d))/g, '$1')).toSorted()
      }),
    )
    for (const other of numbers) expect([told.name, other]).toEqual([told.name, numbers[0]])
  }
}, 120_000)
