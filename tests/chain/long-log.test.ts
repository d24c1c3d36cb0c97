import { appendFileSync, cpSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { NO_STORE } from '../../src/chain/measured-store.ts'
import { runJob } from '../../src/chain/run-job.ts'
import { JobError } from '../../src/problems/problem.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { LONG_RUN } from '../support/long-run.ts'

/** Logs far longer than any car needs: the work on them grows about as their rows do. */

let root: string
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'burnline-long-'))
})
afterAll(() => rmSync(root, { recursive: true, force: true }))

const two = (n: number) => String(n).padStart(2, '0')
const at = (i: number) =>
  `2026-03-04T${two(11 + Math.floor(i / 3600))}:${two(Math.floor(i / 60) % 60)}:${two(i % 60)}+00:00`

async function reported(name: string, rows: readonly string[]) {
  const folder = join(root, name)
  cpSync(fileURLToPath(new URL('../../inputs/third-cylinder-valve', import.meta.url)), folder, {
    recursive: true,
  })
  appendFileSync(join(folder, 'test-log.csv'), `${rows.join('\n')}\n`)
  const options = {
    page: 'A4',
    version: '0',
    embedCaptures: false,
    program: 'test',
    store: NO_STORE,
  } as const
  const begun = process.cpuUsage()
  const output = await runJob(folder, options, loadTexts('en'))
  const { user, system } = process.cpuUsage(begun)
  return { output, processorS: (user + system) / 1e6 }
}

const sprays = (count: number, place: (i: number) => string) =>
  Array.from(
    { length: count },
    (_, i) => `${at(i)},spray,${place(i)},before,idle,propane,,,,,,,,${i % 3 ? 'response' : 'no response'},`,
  )

/** Rows, and the processor seconds they may take; where the work grew with the square of the rows or faster it was minutes. */
const [MANY, MOST_S] = LONG_RUN ? [5000, 30] : [2000, 12]

test.each([
  [MANY, 'of places of their own', (i: number) => `hose ${i}`],
  [LONG_RUN ? 1500 : 800, 'of four places', (i: number) => `runner ${(i % 4) + 1} joint`],
])('%i sprays %s are reported', { timeout: 120_000 }, async (count, name, place) => {
  const { output, processorS } = await reported(name, sprays(count, place))
  expect(processorS).toBeLessThan(MOST_S)
  const { result, warnings } = output
  expect(result.tests.filter((t) => t.step === 'spray')).toHaveLength(count)
  const said = warnings.filter((p) => p.code === 'too-many-places')
  if (name === 'of four places') expect(said).toEqual([])
  else expect(said).toMatchObject([{ severity: 'warn', args: { limit: 100 } }])
})

test('what was found among thousands of silent places is weighed, wherever in the log it stands', async () => {
  const silent = Array.from(
    { length: 400 },
    (_, i) => `${at(i)},spray,hose ${i},before,idle,propane,,,,,,,,no response,`,
  )
  const { output } = await reported('one leak', [
    ...silent,
    `${at(500)},smoke,brake servo hose,before,,,,,,,,,,leak,`,
  ])
  const weighed = output.result.ledger.entries.map((e) => e.says.key)
  expect(weighed).toContain('evidence.smoke-leak')
  const told = output.result.ledger.chain.filter((link) => link.after === 'test')
  expect(told.length).toBeLessThan(100)
  expect(told.at(-1)!.test).toBe(output.result.tests.length - 1)
})

test('thousands of wrong cells are shown as the first and a count', async () => {
  const rows = Array.from({ length: 3000 }, (_, i) => `${at(i)},code,,,,Q${i},,,,,,,,,stored`)
  const refused = await reported('wrong cells', rows).catch((cause: unknown) => cause)
  expect(refused).toBeInstanceOf(JobError)
  const { problems } = refused as JobError
  expect(problems.filter((p) => p.code === 'wrong-cell')).toHaveLength(100)
  expect(problems.at(-1)).toMatchObject({ code: 'more-problems', args: { count: 2900 } })
})
