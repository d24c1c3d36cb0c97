import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { ANSWER, CAPPED, LEAK, MENDED, readOutcome } from '../../src/test-log/outcome-words.ts'

// Outcomes in the usual words of four languages: common practice, no source. Written down before the reader was looked at.
const rows = readFileSync(new URL('outcome-words.tsv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split('\t') as [step: string, meant: string, language: string, written: string])

const READ: Readonly<Record<string, (written: string) => string | undefined>> = {
  spray: (w) => answerOf(readOutcome(w, ANSWER), 'response', 'no response'),
  cap: (w) => answerOf(readOutcome(w, CAPPED), 'response', 'no response'),
  smoke: (w) => answerOf(readOutcome(w, LEAK), 'leak', 'no leak'),
  repair: (w) => readOutcome(w, MENDED),
}
const answerOf = (answer: 'yes' | 'no' | undefined, yes: string, no: string) =>
  answer === undefined ? undefined : answer === 'yes' ? yes : no

test.each(rows)('%s, %s (%s): %s', (step, meant, _, written) => {
  expect(READ[step]!(written)).toBe(meant)
})
