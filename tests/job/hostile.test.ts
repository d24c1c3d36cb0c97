import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { isFolderName } from '../../src/job/checks/work-order.ts'
import { inspectJob } from '../../src/job/inspect-job.ts'
import { readJob } from '../../src/job/read-job.ts'
import { readingLimits } from '../../src/limits/reading-limits.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { sayProblem } from '../../src/texts/say-problem.ts'
import { EXAMPLE_FILES, EXAMPLE_JOB, EXAMPLE_LOG } from '../bench/fuzz/example-job.ts'

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'job-'))
  for (const [file, text] of Object.entries(EXAMPLE_FILES)) {
    mkdirSync(dirname(join(folder, file)), { recursive: true })
    writeFileSync(join(folder, file), text)
  }
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const texts = loadTexts('en')

/** Every outcome is a job or problems that can be said; anything thrown beside a JobError fails the test. */
async function outcome(job: string, log: string): Promise<number> {
  writeFileSync(join(folder, 'job.yaml'), job)
  writeFileSync(join(folder, 'test-log.csv'), log)
  const { job: read, problems } = await inspectJob(folder)
  for (const p of problems) sayProblem(texts, p)
  const refused = problems.some((p) => p.severity === 'refuse')
  expect(read !== undefined || refused, 'neither a job nor a refusal').toBe(true)
  return refused ? 1 : 0
}

test.each([
  ['a year in another base', EXAMPLE_JOB.replace(/year: \d+/, 'year: 0x7ce'), 'wrong-value'],
  [
    'a bank of a reserved name',
    EXAMPLE_JOB.replace(/^engine:\n/m, 'engine:\n  banks: { __proto__: [1] }\n'),
    'unknown-key',
  ],
])('%s is refused', async (_, job, code) => {
  expect(job).not.toBe(EXAMPLE_JOB)
  writeFileSync(join(folder, 'job.yaml'), job)
  writeFileSync(join(folder, 'test-log.csv'), EXAMPLE_LOG)
  const { problems } = await inspectJob(folder)
  expect(problems.filter((p) => p.severity === 'refuse').map((p) => p.code)).toContain(code)
})

describe('a job or problems, never anything else', () => {
  test('every fiftieth beginning of job.yaml', async () => {
    for (let end = 0; end < EXAMPLE_JOB.length; end += 50)
      await outcome(EXAMPLE_JOB.slice(0, end), EXAMPLE_LOG)
  })

  test('every fifth beginning of test-log.csv', async () => {
    for (let end = 0; end < EXAMPLE_LOG.length; end += 5)
      await outcome(EXAMPLE_JOB, EXAMPLE_LOG.slice(0, end))
  })
})

// Each fills the size allowed with one way to cost a reader time, memory or stack.
describe('large and deep files end in seconds', () => {
  const upTo = (bytes: number, piece: string) => piece.repeat(Math.floor(bytes / piece.length))
  const MOST_JOB = readingLimits().jobBytes - 100
  const MOST_LOG = readingLimits().logBytes - 100
  const room = MOST_JOB - EXAMPLE_JOB.length
  test.each([
    ['brackets', upTo(MOST_JOB, '[')],
    ['braces', upTo(MOST_JOB, '{a: ')],
    ['dashes', upTo(MOST_JOB, '- ')],
    ['questions', upTo(MOST_JOB, '? ')],
    ['anchors', upTo(MOST_JOB, '- &a a\n')],
    ['aliases', `- &a a\n${upTo(MOST_JOB - 8, '- *a\n')}`],
    ['quotes', upTo(MOST_JOB, '"')],
    ['one key again and again', upTo(MOST_JOB, 'k: v\n')],
    ['unknown keys', Array.from({ length: 12_000 }, (_, i) => `k${i}: v\n`).join('')],
    [
      'captures',
      `${EXAMPLE_JOB.slice(0, EXAMPLE_JOB.indexOf('captures:'))}captures:\n${upTo(room, '  - file: x\n')}`,
    ],
    ['firing order', EXAMPLE_JOB.replace('[1, 5, 3, 6, 2, 4]', `[${upTo(room, '1, ')}1]`)],
    ['a long value', EXAMPLE_JOB.replace('fuel: E10', `fuel: ${'x'.repeat(room)}`)],
  ])(
    'job.yaml of %s',
    async (_, text) => {
      expect(text.length).toBeLessThanOrEqual(readingLimits().jobBytes)
      expect(await outcome(text, EXAMPLE_LOG)).toBe(1)
    },
    10_000,
  )

  const head = EXAMPLE_LOG.split('\n')[0]!
  test.each([
    ['separators', upTo(MOST_LOG, ',')],
    ['quotes', upTo(MOST_LOG, '"')],
    ['short rows', `${head}\n${upTo(MOST_LOG - 200, 'a\n')}`],
    ['columns', `${Array.from({ length: 130_000 }, (_, i) => `c${i}`).join(',')}\n`],
    ['a million blank lines', `${'\n'.repeat(MOST_LOG - 200)}${head}\nx`],
    ['a million blanks', `${head}\n${' '.repeat(MOST_LOG - 200)}x`],
    ['one long cell', `${head}\n${'x'.repeat(MOST_LOG - 200)}`],
    [
      'unknown steps',
      `${head}\n${upTo(MOST_LOG - 200, `2026-03-04T09:20,${'x'.repeat(50)},,,,,,,,,,,,,,\n`)}`,
    ],
  ])(
    'test-log.csv of %s',
    async (_, text) => {
      expect(await outcome(EXAMPLE_JOB, text)).toBe(1)
    },
    10_000,
  )
})

test('a name that objects carry by themselves is a column or key like any other', async () => {
  const log = EXAMPLE_LOG.replace('seen by', '__proto__')
  writeFileSync(join(folder, 'job.yaml'), EXAMPLE_JOB)
  writeFileSync(join(folder, 'test-log.csv'), log)
  const read = await readJob(folder)
  expect(Object.entries(read.log[0]!.cells)).toContainEqual(['__proto__', 'A. Invented'])
  expect(await outcome(EXAMPLE_JOB.replace('opened:', '__proto__: { a: 1 }\nopened:'), log)).toBe(1)
})

test.each(['\ud800', 'A-\udfff', '\ud83d'])(
  'half a character in a work order would name one folder for two: %j',
  (name) => expect(isFolderName(name)).toBe(false),
)
