import { describe, expect, test } from 'vitest'
import type { Result } from '../../../src/records/result.ts'
import { LANGUAGES, loadTexts } from '../../../src/texts/load-texts.ts'
import { pageOneOf, resultTelling, TOLD } from '../../support/page-one.ts'
import { readingGrade } from '../../support/reading-grade.ts'

const texts = loadTexts('en')
const results = TOLD.map((told) => ({ told, result: resultTelling(told, texts) }))
/** Printed are some of all kinds: what is said is settled before it is drawn. */
const printed = Promise.all(
  results
    .filter((_, i) => i % 11 === 0)
    .map(async ({ told, result }) => ({ told, result, ...(await pageOneOf(result, texts)) })),
)

/** Words of ours: those of the log, and names of causes and places in brackets, are what they are. */
const ours = (text: string) => text.replaceAll(/“[^”]*”/g, 'this').replaceAll(/\([^)]*\)/g, '')
const passages = ({ conclusion: { page_one: page } }: Result) =>
  Object.values(page).map((passage) => passage.map(({ text }) => ours(text)).join(' '))
/** Numbers in some words, their digits not grouped. */
const numbersIn = (words: string) =>
  words.replaceAll(/(\d)[.,\u202f](?=\d{3}(?!\d))/g, '$1').match(/\d+([.,]\d+)?/g) ?? []

/** Every number that a record holds, as it may be printed. */
function numbersOf(value: unknown): string[] {
  if (typeof value === 'number') return [0, 1, 2].map((d) => Math.abs(value).toFixed(d)).concat(String(value))
  if (typeof value === 'string')
    return value.match(/\d+/g)?.flatMap((digits) => [digits, String(Number(digits))]) ?? []
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersOf) : []
}

/** Numbers of page one that no field but its own sentences has. */
function unfounded(words: string, { summary, captures, conclusion, ...fields }: Result): string[] {
  expect(summary.length).toBeGreaterThan(1)
  const looked = numbersOf(summary.filter((s) => s.key.startsWith('summary.looked')).map((s) => s.args))
  const known = new Set([...numbersOf({ captures, findings: conclusion.findings, ...fields }), ...looked])
  return numbersIn(words).filter((number) => !known.has(number))
}

test('all that page one can say is among what is told', () => {
  const said = new Set(results.flatMap(({ result }) => result.summary.map(({ key }) => key)))
  const never = [
    'summary.looked-one', // an engine of one cylinder
    'page.found.burn-long',
    'page.found.burn-short',
    'page.found.firing-low',
    'page.found.oscillation',
    'page.found.idle-swings',
    'page.found.part', // in tests/conclusion/workshop-jobs.test.ts
    'page.found.codes-open',
    'page.next.none-now',
    'page.sure.rise-fellows',
    'page.again.part',
    'page.again.idle-speed',
    'page.unchecked.cold',
    'page.unchecked.road',
    'page.mended.not-shown',
    'page.next.none',
    'page.next.none-open',
  ]
  const keys = Object.keys(texts.templates).filter((key) => /^(summary|page)\./.test(key))
  expect(keys.filter((key) => !said.has(key) && !never.includes(key)).toSorted()).toEqual([])
})

describe('page one, whatever was found and however the work came out', () => {
  test('can be read at school grade 8 (Flesch-Kincaid)', () => {
    const hard = results.flatMap(({ told, result }) => {
      const grade = readingGrade(passages(result).join(' '))
      return grade > 8 ? [`${grade.toFixed(2)} ${told.name}`] : []
    })
    expect(hard).toEqual([])
  })

  test('no sentence of its own is beyond grade 10', () => {
    const hard = new Set(
      results
        .flatMap(({ result }) => result.summary.filter(({ key }) => !key.startsWith('page.cause.')))
        .map(({ text }) => ours(text))
        .filter((text) => readingGrade(text) > 10)
        .map((text) => `${readingGrade(text).toFixed(1)} ${text}`),
    )
    expect([...hard]).toEqual([])
  })

  test("prints every sentence of the conclusion's page, and every number on it is one of the result's fields", async () => {
    for (const { told, result, words } of await printed) {
      const plain = (text: string) => text.replaceAll(/\s/g, ' ')
      for (const { text } of result.summary) expect(plain(words)).toContain(plain(text))
      expect([told.name, unfounded(words, result)]).toEqual([told.name, []])
    }
  }, 120_000)

  test('names the cylinders of its findings, and no other', () => {
    for (const { told, result } of results) {
      const { findings, page_one: page } = result.conclusion
      const open = findings.filter((f) => f.state === 'as found' && f.order !== 'in order')
      const known = new Set(open.flatMap((f) => [...f.where.cylinders, ...f.unsure]).map(String))
      const named = page.found
        .filter(({ args }) => typeof args['cylinders'] === 'string')
        .flatMap(({ args }) => String(args['cylinders']).split(', '))
      expect([told.name, named.filter((n) => !known.has(n))]).toEqual([told.name, []])
    }
  })

  test('says Yes only of a repair confirmed, and never that all is well where anything stands open', () => {
    for (const { told, result } of results) {
      const { repair, page_one: page, as_found } = result.conclusion
      const mended = page.mended.map(({ text }) => text).join(' ')
      expect([told.name, mended.startsWith('Yes')]).toEqual([
        told.name,
        repair.verdict === 'repair confirmed',
      ])
      const calm = page.found.some(({ key }) => key === 'page.found.in-order')
      expect([told.name, calm]).toEqual([told.name, as_found.class === 'in order'])
      const causes = page.found.filter(({ key }) => key.startsWith('page.cause.'))
      if (calm) expect([told.name, causes]).toEqual([told.name, []])
    }
  })
})

test('a number that no field has is found', async () => {
  const [{ result, words }] = (await printed) as [Awaited<typeof printed>[number]]
  expect(unfounded(`${words} Also 7531 and 2.25.`, result)).toEqual(['7531', '2.25'])
})

test('page one says the same numbers in every language', () => {
  for (const told of TOLD.filter((_, i) => i % 7 === 0)) {
    const numbers = LANGUAGES.map((language) =>
      numbersIn(
        resultTelling(told, loadTexts(language))
          .summary.map(({ text }) => text)
          .join(' ')
          // French groups digits with a space.
          .replaceAll(/(\d)\s(?=\d{3}(?!\d))/g, '$1')
          .replaceAll(/(\d),(\d)/g, '$1.$2'),
      ).toSorted(),
    )
    for (const other of numbers) expect([told.name, other]).toEqual([told.name, numbers[0]])
  }
})
