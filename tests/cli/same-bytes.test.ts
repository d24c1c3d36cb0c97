import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { samplePng } from '../support/sample-photo.ts'

/** Same input, same bytes: nothing of the machine, the moment or the place may be in any output. */

const root = fileURLToPath(new URL('../..', import.meta.url))
const main = join(root, 'dist', 'cli', 'main.js')
let work: string
let files: [string, Buffer][]

beforeAll(() => {
  work = realpathSync(mkdtempSync(join(tmpdir(), 'burnline-bytes-')))
  files = jobWithPhotos()
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

/** A demo job of four captures, a trace and a log, with two photos put in. */
function jobWithPhotos(): [string, Buffer][] {
  const demo = join(root, 'inputs', 'wasted-spark-runner-two')
  const names = readdirSync(demo, { recursive: true, encoding: 'utf8' }).filter(
    (name) => !statSync(join(demo, name)).isDirectory(),
  )
  const own = new Map(names.map((name) => [name, readFileSync(join(demo, name))]))
  const photos =
    'photos:\n  - { file: photos/b.png, caption: Joint, stage: before }\n  - { file: photos/a.png, caption: New seal, stage: after }\n'
  own.set('job.yaml', Buffer.concat([own.get('job.yaml')!, Buffer.from(photos)]))
  own.set('photos/b.png', Buffer.from(samplePng(60, 40)))
  own.set('photos/a.png', Buffer.from(samplePng(40, 60)))
  return [...own]
}

interface Machine {
  /** The job's folder, and the folder the program is called from, below the test's own. */
  folder: string
  cwd: string
  /** Whether the last file of the list is written first. */
  backwards: boolean
  /** When the files are said to have been changed, s since 1970. */
  changedS: number
  umask: string
  env: Record<string, string>
}

const HERE: Machine = {
  folder: 'job',
  cwd: '.',
  backwards: false,
  changedS: 1_000_000_000,
  umask: '022',
  env: { TZ: 'UTC', LANG: 'C', LC_ALL: 'C' },
}

/** SHA-256 of every file that the program makes of the job on such a machine, by its path below the output folder. */
function digestsOn(machine: Machine): Record<string, string> {
  const [folder, cwd] = [join(work, machine.folder), join(work, machine.cwd)]
  mkdirSync(cwd, { recursive: true })
  for (const [name, data] of machine.backwards ? files.toReversed() : files) {
    mkdirSync(dirname(join(folder, name)), { recursive: true })
    writeFileSync(join(folder, name), data)
    utimesSync(join(folder, name), machine.changedS, machine.changedS)
  }
  const args = [main, 'report', relative(cwd, folder), '--captures', '--force', '--out', 'out']
  const run = spawnSync('sh', ['-c', `umask ${machine.umask}; exec "$0" "$@"`, process.execPath, ...args], {
    cwd,
    encoding: 'utf8',
    env: { ...process.env, ...machine.env },
  })
  expect([run.status, run.stderr]).toEqual([0, ''])
  const out = join(cwd, 'out', 'KB-26-0305')
  const made = readdirSync(out, { recursive: true, encoding: 'utf8' }).filter(
    (name) => !statSync(join(out, name)).isDirectory(),
  )
  return Object.fromEntries(
    made.toSorted().map((name) => [
      name,
      createHash('sha256')
        .update(readFileSync(join(out, name)))
        .digest('hex'),
    ]),
  )
}

let first: Record<string, string>
beforeAll(() => {
  first = digestsOn(HERE)
}, 240_000)

test('the job is one with everything in it', () => {
  const out = join(work, 'out', 'KB-26-0305')
  for (const name of [
    'report.pdf',
    'result.json',
    'manifest.json',
    'events.csv',
    'cylinders.csv',
    'tests.csv',
    'claim.txt',
    'charts',
  ])
    expect(existsSync(join(out, name)), name).toBe(true)
  expect(
    readFileSync(join(out, 'report.pdf'))
      .toString('latin1')
      .match(/\/Subtype \/Image\b/g),
  ).toHaveLength(2)
})

test('made again in the same place, its measurements taken from the store beside the outputs', () => {
  expect(digestsOn(HERE)).toEqual(first)
}, 240_000)

test.each<[string, Partial<Machine>]>([
  [
    'another time zone and language of the machine',
    { env: { TZ: 'Pacific/Kiritimati', LANG: 'de_DE.UTF-8', LC_ALL: 'tr_TR.UTF-8', LANGUAGE: 'fr' } },
  ],
  ['another umask, and a working folder deep below', { umask: '077', cwd: 'called/from here/é' }],
  [
    "another path of the job's folder, its files made in the opposite order on another day",
    { folder: 'some where/else ü/job', backwards: true, changedS: 1_700_000_000 },
  ],
])(
  '%s: identical SHA-256 of every output',
  (name, other) => {
    const machine: Machine = {
      ...HERE,
      folder: `job of ${name.length}`,
      cwd: `cwd of ${name.length}`,
      ...other,
    }
    expect(digestsOn(machine)).toEqual(first)
  },
  240_000,
)
