import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gunzipSync, gzipSync } from 'node:zlib'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { checkJob } from '../../src/chain/check-job.ts'

const good = fileURLToPath(new URL('../fixtures/captures/a-four-level', import.meta.url))
let work: string
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-check-'))
})
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
  (await checkJob(folder, { captures })).problems
    .filter((p) => p.severity === 'refuse')
    .map((p) => `${p.file}:${p.line ?? '-'} ${p.code}`)

test('a job in order, its captures read', async () => expect(await refusals(good, true)).toEqual([]))

test('job.yaml, rows and cells of the log in one pass, each once', async () => {
  const folder = changed({
    yaml: (text) => text.replace('ignition: distributor', 'igniton: distributor'),
    log: `${LOG}2026-03-04T09:20,trim,,STFT1,9.4,,,,\n2026-03-04T09:20,sprya,,,,,,,\nsoon,note,,,,,,,\n2026-03-04T09:20,compression,,cylinder 1,-3,psi,,,\n`,
  })
  const found = await refusals(folder)
  expect(
    found
      .filter((f) => f.startsWith('job.yaml'))
      .map((f) => f.split(' ')[1])
      .sort(),
  ).toEqual(['missing-key', 'unknown-key'])
  expect(found.filter((f) => f.startsWith('test-log'))).toEqual([
    'test-log.csv:3 unknown-step',
    'test-log.csv:4 wrong-cell',
    'test-log.csv:2 missing-cell',
    'test-log.csv:5 wrong-cell',
  ])
})

test('what is in a capture is looked at only where asked', async () => {
  const folder = changed({ capture: Buffer.from('no samples here\n') })
  expect(await refusals(folder)).toEqual([])
  expect(await refusals(folder, true)).toEqual(['captures/idle.csv.gz:- no-data-rows'])
})

test('a guess that nobody has confirmed is told of, and refuses nothing', async () => {
  const folder = changed({
    yaml: (text) => text.replace(/^opened: .*$/m, '$&  # guess: the day of this draft'),
  })
  const { problems: found } = await checkJob(folder, { captures: false })
  expect(found.filter((p) => p.code === 'guess-left').map((p) => p.severity)).toEqual(['warn'])
})

const all = async (folder: string): Promise<string[]> =>
  (await checkJob(folder, { captures: false })).problems.map(
    (p) => `${p.severity} ${p.code} ${[p.file, p.line, p.column].filter((x) => x !== undefined).join(':')}`,
  )

test('a cell of the log is named with its column, and said to be wrong or missing, not both', async () => {
  const rows = [
    '2026-03-04T09:20,trim,,STFT1,"9,4",%,,,',
    '2026-03-04T09:21,compression,,cylinder 5,148,psi,,,',
    '2026-03-04T09:22,compression,,cylinder 1,1480,psi,,,',
    '2026-03-04T09:23,trim,,STFT1,9.4,,,,',
  ]
  const found = await all(changed({ log: `${LOG}${rows.join('\n')}\n` }))
  expect(found.filter((f) => f.includes('test-log') && !f.includes('date-outside'))).toEqual([
    'refuse wrong-cell test-log.csv:2:5',
    'refuse wrong-cell test-log.csv:3:4',
    'refuse missing-cell test-log.csv:5:6',
    'warn unusual-value test-log.csv:4:5',
  ])
})

test('a file that lies in the folder and is named nowhere is told of; what systems leave there is not', async () => {
  const folder = changed({})
  for (const name of ['forgotten.csv', '._idle.csv', 'Thumbs.db'])
    writeFileSync(join(folder, 'captures', name), 'x')
  expect((await all(folder)).filter((f) => f.includes('file-not-named'))).toEqual([
    'warn file-not-named captures/forgotten.csv',
  ])
})

describe('mistakes that would look like another fault', () => {
  test('sync and secondary taken for each other', async () => {
    const swap = (text: string) =>
      text
        .replace(
          /carries: (secondary|sync)/g,
          (_, what: string) => `carries: ${what === 'sync' ? 'secondary' : 'sync'}`,
        )
        .replace(/cylinders: all/g, 'cylinder: 0')
        .replace(/cylinder: 1\b/g, 'cylinders: all')
        .replace(/cylinder: 0/g, 'cylinder: 1')
        .replace(/unit: (kV|V)\b/g, (_, unit: string) => `unit: ${unit === 'V' ? 'kV' : 'V'}`)
    const folder = changed({ yaml: swap })
    const text = gunzipSync(readFileSync(join(folder, 'captures', 'idle.csv.gz'))).toString('utf8')
    const nameless = text.replace(/_kv\b/g, '_a').replace(/_v\b/g, '_b')
    writeFileSync(join(folder, 'captures', 'idle.csv.gz'), gzipSync(nameless))
    const yaml = join(folder, 'job.yaml')
    writeFileSync(yaml, readFileSync(yaml, 'utf8').replace(/_kv\b/g, '_a').replace(/_v\b/g, '_b'))
    const codes = (await checkJob(folder, { captures: true })).problems
      .filter((p) => p.severity === 'refuse')
      .map((p) => p.code)
    expect(new Set(codes)).toEqual(new Set(['columns-doubtful']))
  })

  test('seconds called milliseconds', async () => {
    const folder = changed({
      yaml: (text) => text.replace('column: time_s', 'column: t').replace('unit: s', 'unit: ms'),
    })
    const path = join(folder, 'captures', 'idle.csv.gz')
    writeFileSync(path, gzipSync(gunzipSync(readFileSync(path)).toString('utf8').replace('time_s', 't')))
    expect(await refusals(folder, true)).toEqual(['captures/idle.csv.gz:- implausible-clock'])
  })
})
