import { describe, expect, test } from 'vitest'
import { claimText, MOST_CLAIM_SIGNS } from '../../src/report/claim-text.ts'
import type { Result } from '../../src/records/result.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { sampleJob } from '../support/sample-result.ts'

const { result } = sampleJob({ cylinders: 8, tests: 24 })
const CAUSE = { cause: 'leak-intake-gasket', place: 'bank 2', standing: 'clear' as const }
const fault = {
  ...CAUSE,
  id: 'G1',
  cylinders: [2, 4],
  share: 0.9,
  share_range: [0.8, 0.95] as [number, number],
  keeps_first: 1,
  others: [{ cause: 'leak-runner-joint', place: 'cylinder 4', share: 0.05 }],
  explains: [],
  against: [],
  status: 'open',
  says: { key: 'x', args: {}, text: 'x' },
}

/** The sample with a cause, and with these words of technician and customer. */
function withWords(words: string, place = 'bank 2'): Result {
  const { conclusion, job } = result
  return {
    ...result,
    job: { ...job, complaint: words, cause: words, correction: words },
    tests: result.tests.map((each) => ({ ...each, note: words })),
    conclusion: {
      ...conclusion,
      stated: [
        { what: 'cause', words, stands: 'agrees' },
        { what: 'correction', words, stands: 'not tested' },
      ],
      faults: Array.from({ length: 5 }, () => ({ ...fault, place })) as never,
    },
  }
}

const LONG = 'The engine shakes and hunts at every red light, smells of fuel and stalls when cold. '.repeat(
  60,
)

describe.each(['en', 'de', 'fr', 'es'] as const)('a claim text in %s', (language) => {
  const texts = loadTexts(language)

  test.each([
    ['as it is', 'Shakes at idle', 'bank 2'],
    ['with long words of others', LONG, 'bank 2'],
    ['with a long place', LONG, LONG],
    ['without a blank to cut at', 'x'.repeat(5000), 'x'.repeat(5000)],
    ['with line ends and pairs of code units', '\u{1f697} shakes\r\n\tat idle '.repeat(200), 'bank 2'],
  ])('%s: at most 1,000 characters, four things said, each on a line', (_, words, place) => {
    const text = claimText(withWords(words, place), texts)
    // Line ends count twice, since some forms write them so.
    expect(text.replaceAll('\n', '\r\n').length).toBeLessThanOrEqual(MOST_CLAIM_SIGNS)
    expect(MOST_CLAIM_SIGNS).toBe(1000)
    const lines = text.trimEnd().split('\n')
    expect(lines.length).toBeGreaterThanOrEqual(4)
    for (const line of lines) expect(line).toMatch(/^[^:]+: .+[.\u201d\u201c»)\p{L}\p{N}]$/u)
    expect(text).not.toMatch(/[\ud800-\udbff](?![\udc00-\udfff])/)
    expect(text).toContain(result.conclusion.repair.reason.text)
  })

  test('words that fit stand as they are; long ones are cut after a word and say so', () => {
    expect(claimText(withWords('Shakes at idle'), texts)).not.toContain('\u2026 ')
    const complaint = claimText(withWords(LONG), texts).split('\n')[0]!
    expect(complaint).toMatch(/ \p{L}+\u2026/u)
    expect(LONG).toContain(/[“„«]\s?(.+)\u2026/u.exec(complaint)![1]!)
  })
})

test('where nothing is on record, it says so', () => {
  const { conclusion, job } = result
  const bare: Result = {
    ...result,
    job: { ...job, cause: null, correction: null },
    tests: [],
    conclusion: {
      ...conclusion,
      stated: [],
      faults: [],
      repair: { ...conclusion.repair, verdict: 'not comparable' as never },
    },
  }
  const [, cause, correction, proof] = claimText(bare, loadTexts('en')).split('\n')
  expect(cause).toBe('Cause: not stated by the technician; found by the tests: not shown.')
  expect(correction).toBe('Correction: not on record.')
  expect(proof).toMatch(/^Proof: Not shown\. /)
})
