import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { sealManifest } from '../../src/seal/seal-manifest.ts'
import { isWithin } from '../../src/files/bounded-json.ts'
import { writeOutput } from '../fleet/fleet-jobs.ts'

/** Manifests, records and ledgers made to fill a computer: short, deep, wide, or files of nothing but holes. */
const MOST_MIB = 256
const MOST_MS = 60_000
const main = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url))
let root: string
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'burnline-hostile-json-'))
  writeOutput(root, { workOrder: 'A-1', date: '2026-03-04' })
  writeFileSync(
    join(root, 'ask.cjs'),
    `const fs = require('node:fs')
process.on('exit', () => fs.writeSync(2, /VmHWM.*/.exec(fs.readFileSync('/proc/self/status', 'utf8'))[0]))`,
  )
})
afterAll(() => rmSync(root, { recursive: true, force: true }))

const MANIFEST = 'manifest.json'
const RECORD = 'result.json'
const sparse = (path: string, bytes: number): void => {
  writeFileSync(path, '')
  truncateSync(path, bytes)
}
/** The manifest with this among its members, sealed anew as anybody can. */
const manifestWith = (folder: string, more: object): void => {
  const { seal: _, ...manifest } = JSON.parse(readFileSync(join(folder, MANIFEST), 'utf8')) as {
    seal: unknown
  }
  writeFileSync(
    join(folder, MANIFEST),
    sealManifest(`${JSON.stringify({ ...manifest, ...more }, null, 2)}\n`),
  )
}
const nested = (depth: number): unknown => JSON.parse('['.repeat(depth) + ']'.repeat(depth)) as unknown
/** The record replaced, and the manifest brought level with it. */
const record = (folder: string, text: string): void => {
  writeFileSync(join(folder, RECORD), text)
  const sha256 = createHash('sha256').update(text).digest('hex')
  manifestWith(folder, { outputs: [{ file: RECORD, sha256, bytes: Buffer.byteLength(text) }] })
}
/** Depth as it writes each value on a line of its own behind so many blanks: a mebibyte of them grows to gibibytes. */
const deepAndWide = `${'['.repeat(2000)}${'0,'.repeat(2 ** 20)}0${']'.repeat(2000)}`
const withMember = (value: string) => (folder: string) => {
  const path = join(folder, MANIFEST)
  writeFileSync(path, readFileSync(path, 'utf8').replace('{', `{"more":${value},`))
}

const HOSTILE: Readonly<Record<string, (folder: string) => void>> = {
  'a manifest of 4 GiB of holes': (folder) => sparse(join(folder, MANIFEST), 4 * 2 ** 30),
  'a manifest of two million empty lists': withMember(`[${'[],'.repeat(2 ** 21)}[]]`),
  'a manifest of values nested a million deep': withMember('['.repeat(2 ** 20) + ']'.repeat(2 ** 20)),
  'a manifest a hundred times as long once it is written as ours are': withMember(deepAndWide),
  'a sealed manifest of values nested a thousand deep': (folder) =>
    manifestWith(folder, { more: nested(1000) }),
  'a file of a tebibyte of holes': (folder) => {
    sparse(join(folder, 'events.csv'), 2 ** 40)
    manifestWith(folder, { outputs: [{ file: 'events.csv', sha256: '0'.repeat(64), bytes: 2 ** 40 }] })
  },
  'a record of 4 GiB of holes': (folder) => sparse(join(folder, RECORD), 4 * 2 ** 30),
  'a record of eight million empty objects': (folder) => record(folder, `[${'{},'.repeat(2 ** 23)}{}]`),
  'a record nested a million deep': (folder) =>
    record(folder, `{"job":${'['.repeat(2 ** 20)}${']'.repeat(2 ** 20)}}`),
}

/** Runs the program and asks the system for the most memory it took, MiB. */
function run(...args: readonly string[]) {
  const ended = spawnSync(process.execPath, ['--require', join(root, 'ask.cjs'), main, ...args], {
    cwd: root,
    encoding: 'utf8',
    timeout: MOST_MS,
  })
  const kib = Number(/VmHWM:\s+(\d+) kB/.exec(ended.stderr)?.[1] ?? Infinity)
  return { ...ended, mib: kib / 1024 }
}

// The most memory of a process is asked of the system, which tells it in this form on Linux alone.
describe.skipIf(process.platform !== 'linux').each(Object.keys(HOSTILE))('%s', (name) => {
  test(
    `ends verify and fleet within ${MOST_MIB} MiB and ${MOST_MS / 1000} s`,
    { timeout: 3 * MOST_MS },
    () => {
      const folder = mkdtempSync(join(root, 'copy-'))
      cpSync(join(root, 'A-1'), folder, { recursive: true })
      HOSTILE[name]!(folder)
      const verified = run('verify', folder)
      // Its digests are right, and verify does not read what a record says.
      const holds = name.startsWith('a record') && !name.includes('holes')
      expect([verified.status, verified.stderr.includes('error: ')]).toEqual(holds ? [0, false] : [65, true])
      expect(verified.stderr).not.toContain('internal')
      expect(verified.mib).toBeLessThan(MOST_MIB)
      const rolled = run('fleet', folder, '--out', `${folder}-fleet`)
      expect([rolled.status, rolled.stderr.includes('internal')]).toEqual([0, false])
      expect(rolled.mib).toBeLessThan(MOST_MIB)
      // A job whose output cannot be trusted still has its row, without figures; one that only lists more keeps it.
      const row = readFileSync(join(`${folder}-fleet`, 'fleet.csv'), 'utf8').split('\n')[1]!
      if (!name.includes('tebibyte')) expect(row).toMatch(/unreadable|altered/)
    },
  )
})

const LINES: Readonly<Record<string, (path: string) => void>> = {
  'a line that does not end': (path) => sparse(path, 2 * 2 ** 30),
  'a line of eight million empty objects': (path) => writeFileSync(path, `[${'{},'.repeat(2 ** 23)}{}]\n`),
}
describe.skipIf(process.platform !== 'linux').each(Object.keys(LINES))('%s', (name) => {
  test('is refused by fleet and by verify --ledger', { timeout: 3 * MOST_MS }, () => {
    const path = join(root, 'lines')
    LINES[name]!(path)
    const rolled = run('fleet', path, '--out', 'lines-fleet')
    expect([rolled.status, rolled.stderr]).toEqual([65, expect.stringContaining('lines:1')])
    const verified = run('verify', '--ledger', path)
    expect([64, 65]).toContain(verified.status)
    expect(rolled.stderr + verified.stderr).not.toContain('internal')
    expect(Math.max(rolled.mib, verified.mib)).toBeLessThan(MOST_MIB)
  })
})

test('a folder of an output that links to the root is not walked', () => {
  const folder = mkdtempSync(join(root, 'copy-'))
  cpSync(join(root, 'A-1'), folder, { recursive: true })
  mkdirSync(join(folder, 'charts'))
  symlinkSync('/', join(folder, 'charts', 'all'))
  const { status, stderr } = run('verify', folder)
  expect([status, stderr.match(/error: /g)?.length]).toEqual([65, 1])
  expect(stderr).toContain('charts/all')
})

test.each<[string, boolean]>([
  ['[[1,2],{"a":"[[[[,,,,{{{"}]', true],
  ['[[[1]]]', false],
  ['[1,2,3,4,5,6,7,8]', false],
  [String.raw`["\"[[[,,,,,,,"]`, true],
])('the count of %s', (text, expected) =>
  expect(isWithin(Buffer.from(text), { values: 7, depth: 2 })).toBe(expected),
)
