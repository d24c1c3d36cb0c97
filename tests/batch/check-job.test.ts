import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { checkJob } from '../../src/batch/check-job.ts'

const good = fileURLToPath(new URL('../fixtures/captures/a-four-level', import.meta.url))
let work: string
beforeAll(() => { work = mkdtempSync(join(tmpdir(), 'burnline-check-')) })
afterAll(() => rmSync(work, { recursive: true, force: true }))

let made = 0
/** A copy of a good job with its files changed. */
function changed(change: { yaml?: (text: string) => string; log?: string; capture?: Buffer }): string {
  const folder = join(work, String(made++))
  cpSync(good, folder, { recursive: true })
  const yaml = join(folder, 'job.yaml')
  if (change.yaml) writeFileSync(yaml, change.yaml(readFileSync(yaml, 'utf8')))
  if (change.log !== undefined) writeFileSync(join(folder, 'test-log.csv'), change.log)
  if (change.capture) writeFileSync(join(folder, 'captures', 'idle.csv.gz'), change.capture)
  return folder
}
const LOG = 'at,step,place,reading,value,unit,trace,from_s,to_s\n'
const refusals = async (folder: string, captures = false): Promise<string[]> =>
  (await checkJob(folder, { captures })).filter((p) => p.severity === 'refuse').map((p) => `${p.file}:${p.line ?? '-'} ${p.code}`)

test('a job in order, its captures read', async () => expect(await refusals(good, true)).toEqual([]))

test('job.yaml, rows and cells of the log in one pass, each once', async () => {
  const folder = changed({
    yaml: (text) => text.replace('ignition: distributor', 'igniton: distributor'),
    log: `${LOG}2026-03-04T09:20,trim,,STFT1,9.4,,,,\n2026-03-04T09:20,sprya,,,,,,,\nsoon,note,,,,,,,\n2026-03-04T09:20,compression,,cylinder 1,-3,psi,,,\n`,
  })
  const found = await refusals(folder)
  expect(found.filter((f) => f.startsWith('job.yaml')).map((f) => f.split(' ')[1]).sort()).toEqual(['missing-key', 'unknown-key'])
  expect(found.filter((f) => f.startsWith('test-log'))).toEqual([
    'test-log.csv:3 unknown-step', 'test-log.csv:4 wrong-cell', 'test-log.csv:2 missing-cell', 'test-log.csv:5 wrong-cell',
  ])
})

test('what is in a capture is looked at only where asked', async () => {
  const folder = changed({ capture: Buffer.from('no samples here\n') })
  expect(await refusals(folder)).toEqual([])
  expect(await refusals(folder, true)).toEqual(['captures/idle.csv.gz:- no-data-rows'])
})

test('a guess that nobody has confirmed is told of, and refuses nothing', async () => {
  const folder = changed({ yaml: (text) => text.replace(/^opened: .*$/m, '$&  # guess: the day of this draft') })
  const found = await checkJob(folder, { captures: false })
  expect(found.filter((p) => p.code === 'guess-left').map((p) => p.severity)).toEqual(['warn'])
})
