import { spawnSync } from 'node:child_process'
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest'

/** A pipe without a writer would be waited for without end, a device never ends: both are refused at once, wherever named. */
vi.setConfig({ testTimeout: 120_000 })
/** What waits for a pipe waits for good; on a busy machine a report takes its time. */
const LONGEST_MS = 60_000

const root = fileURLToPath(new URL('../..', import.meta.url))
const main = join(root, 'dist', 'cli', 'main.js')
const good = join(root, 'tests', 'fixtures', 'captures', 'a-four-level')
let work: string
const at = (...parts: string[]) => join(work, ...parts)
const burnline = (...args: readonly string[]) =>
  spawnSync(process.execPath, [main, ...args], {
    cwd: work,
    encoding: 'utf8',
    timeout: LONGEST_MS,
    killSignal: 'SIGKILL',
  })
const pipe = (path: string): void => {
  rmSync(path, { force: true })
  expect(spawnSync('mkfifo', [path]).status).toBe(0)
}
const withPipe = (folder: string, file: string): string => {
  const copy = mkdtempSync(at('copy-'))
  cpSync(at(folder), copy, { recursive: true })
  pipe(join(copy, file))
  return copy
}

beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-pipes-'))
  cpSync(good, at('job'), { recursive: true })
  expect(burnline('report', 'job', '--out', 'outputs').status).toBe(0)
  cpSync(
    at(
      'outputs',
      readdirSync(at('outputs')).find((name) => !name.startsWith('.'))!,
    ),
    at('output'),
    { recursive: true },
  )
  pipe(at('pipe'))
  symlinkSync('/dev/zero', at('device'))
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

const WAYS: Readonly<Record<string, (file: string) => string[]>> = {
  'report --limits': (file) => ['report', 'job', '--limits', file],
  'report --causes': (file) => ['report', 'job', '--causes', file],
  'report --proof': (file) => ['report', 'job', '--proof', file],
  'report --key': (file) => ['report', 'job', '--key', file],
  'report --shop': (file) => ['report', 'job', '--shop', file],
  'report --list': (file) => ['report', '--list', file],
  'report --ledger': (file) => ['report', 'job', '--out', 'out-ledger', '--ledger', file],
  'report of it': (file) => ['report', file],
  check: (file) => ['check', file],
  peek: (file) => ['peek', file],
  new: (file) => ['new', 'new-job', file],
  verify: (file) => ['verify', file],
  'verify --key': (file) => ['verify', 'output', '--key', file],
  'verify --ledger': (file) => ['verify', '--ledger', file],
  'verify --original': (file) => ['verify', 'output', '--original', file],
  fleet: (file) => ['fleet', file, '--out', 'fleet'],
}

describe.each(['pipe', 'device'])('a %s', (kind) => {
  test.each(Object.keys(WAYS))('named for %s', (way) => {
    const { status, signal, stderr, stdout } = burnline(...WAYS[way]!(kind))
    expect([signal, stderr]).not.toContain('SIGKILL')
    expect([64, 65, 66, 73]).toContain(status)
    expect(stderr + stdout).not.toMatch(/\n\s+at |internal error/)
    expect(stderr.trim()).not.toBe('')
  })
})

test.each(['job.yaml', 'test-log.csv', ...filesOf(good, 'captures')])('a job whose %s is a pipe', (file) => {
  const { status, stderr } = burnline('report', withPipe('job', file), '--out', at('out-pipe'))
  expect([status, stderr.includes('internal error')]).toEqual([65, false])
  expect(stderr).toContain(file)
})

test.each(['manifest.json', 'report.pdf', 'result.json', 'events.csv'])(
  'an output whose %s is a pipe',
  (file) => {
    const output = withPipe('output', file)
    const verified = burnline('verify', output)
    expect([verified.status, verified.stderr.includes('internal error')]).toEqual([65, false])
    const rolled = burnline('fleet', output, '--out', mkdtempSync(at('fleet-')))
    expect([rolled.signal, rolled.stderr.includes('internal error')]).toEqual([null, false])
    if (file === 'result.json') {
      const reissued = burnline('report', 'job', '--replaces', output, '--out', 'again')
      expect([reissued.signal, reissued.stderr.includes('internal error')]).toEqual([null, false])
    }
  },
)

test('pipes in the place of an output and of kept measurements', () => {
  cpSync(at('outputs'), at('seeded'), { recursive: true })
  for (const name of readdirSync(at('seeded'))) {
    if (name === '.burnline-cache') for (const kept of filesOf(at('seeded'), name)) pipe(at('seeded', kept))
    else if (!name.startsWith('.')) pipe(at('seeded', name, 'manifest.json'))
  }
  const { signal, status } = burnline('report', 'job', '--out', 'seeded')
  expect([signal, status]).toEqual([null, 73])
})

function filesOf(folder: string, inside: string): string[] {
  return readdirSync(join(folder, inside), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)))
    .slice(0, 2)
}

test('no file that others may have made is opened but by files/regular-file.ts', () => {
  // The program's own files, what it has just written itself, and what the system keeps.
  const OWN = [
    'limits/read-template.ts',
    'fleet-run/run-fleet.ts',
    'fleet-run/sort-rows.ts',
    'prove/',
    'demo/',
    'cli/version.ts',
    'texts/font-files.ts',
    'texts/load-texts.ts',
    'batch/machine-limits.ts',
    'evidence/made-with.ts',
    'evidence/ledger-file.ts',
    'files/regular-file.ts',
    'capture/stored-bytes.ts',
    'bundle.mjs',
    'bootstrap.mjs',
    'write-catalogue.mjs',
  ]
  const src = join(root, 'src')
  const opening = readdirSync(src, { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.(ts|mjs)$/.test(file) && !OWN.some((own) => file.startsWith(own)))
    .filter((file) =>
      /\b(readFileSync|createReadStream|openSync|readFile)\(|import \{[^}]*\bopen\b[^}]*\} from 'node:fs/.test(
        readFileSync(join(src, file), 'utf8'),
      ),
    )
  expect(opening).toEqual(['files/write-whole.ts']) // opens folders, to force them to the disk
})
