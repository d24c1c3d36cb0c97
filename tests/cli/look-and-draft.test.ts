import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gunzipSync, gzipSync } from 'node:zlib'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { shownOn } from '../../src/cli/terminal.ts'
import { inProcess } from '../support/in-process.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))
const whole = join(root, 'tests', 'fixtures', 'captures', 'a-four-level', 'captures', 'idle.csv.gz')
/** Rows of it that hold some cycles, so that each run of the program is short. */
const ROWS = 200_000
let work: string
let capture: string
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-cli-'))
  capture = join(work, 'idle.csv.gz')
  writeFileSync(
    capture,
    gzipSync(gunzipSync(readFileSync(whole)).toString('latin1').split('\n', ROWS).join('\n') + '\n', {
      level: 1,
    }),
  )
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

/** Without a terminal: input and output are pipes. */
const burnline = (...args: string[]) => inProcess(args, work)
const json = (text: string): never => JSON.parse(text) as never

describe('burnline peek', () => {
  test('plain ASCII where there is no terminal', async () => {
    const run = await burnline('peek', capture)
    expect(run.status).toBe(0)
    expect(run.stdout).toMatch(/^[\x20-\x7e\n]+$/)
    expect(run.stdout).toContain('secondary_kv')
  })
  test('--json: one document with roles and sureness', async () => {
    const seen = json((await burnline('peek', capture, '--json')).stdout) as {
      columns: { role: string; sureness: number }[]
    }
    expect(seen.columns.map((c) => c.role)).toEqual(['time', 'secondary', 'sync'])
  })
  test('a file that is none: coded, exit 65; a wrong rate: exit 64', async () => {
    writeFileSync(join(work, 'words.csv'), 'nothing\n')
    const run = await burnline('peek', 'words.csv')
    expect([run.status, run.stderr.includes('[no-data-rows]'), run.stdout]).toEqual([65, true, ''])
    expect((await burnline('peek', capture, '--rate', '0')).status).toBe(64)
  })
})

describe('burnline new', () => {
  test('makes a folder that runs, asks nothing without a terminal, and says what it took for granted', async () => {
    const run = await burnline('new', 'job', capture)
    expect([run.status, run.stderr]).toEqual([0, ''])
    expect(run.stdout.split('\n')[0]).toMatch(/^job is made/)
    expect(run.stdout).toContain('cylinders: 4: 4 events to a sync pulse')
    expect(run.stdout).toContain('complaint: "not stated": nobody said it')
    expect(run.stdout.trimEnd().split('\n').at(-1)).toBe(
      'Next: burnline check job, burnline log job, burnline report job',
    )
    expect(readdirSync(join(work, 'job')).sort()).toEqual([
      'captures',
      'job.schema.json',
      'job.yaml',
      'test-log.csv',
    ])
    expect(readFileSync(join(work, 'job', 'captures', 'idle.csv.gz'))).toEqual(readFileSync(capture))
    expect((await burnline('check', 'job')).stdout).toBe('job  in order\n')
  })
  test('a second time: nothing is replaced, exit 73', async () => {
    const before = readFileSync(join(work, 'job', 'job.yaml'), 'utf8')
    expect((await burnline('new', 'job', capture)).status).toBe(73)
    expect(readFileSync(join(work, 'job', 'job.yaml'), 'utf8')).toBe(before)
  })
  test('a capture that is not there: nothing is made', async () => {
    expect((await burnline('new', 'other', 'no-such.csv')).status).toBe(65)
    expect(existsSync(join(work, 'other'))).toBe(false)
  })
  test('an engine that cannot be is refused with its reason, exit 64', async () => {
    const run = await burnline('new', 'third', capture, '--engine', '4 cyl 1-3-4')
    expect([run.status, run.stderr]).toEqual([64, 'burnline: "1-3-4" is no firing order of 4 cylinders.\n'])
  })
})

test('help in a pipe: plain signs, and examples', async () => {
  const run = await burnline('new', '--help')
  expect(run.stdout).toMatch(/^[\x20-\x7e\n]+$/)
  expect(run.stdout).toMatch(/Examples:\s+burnline new KB-26-0417 before\.csv/)
})

describe('burnline add', () => {
  test('a later capture gets the channels of one with the same columns, and the stage its name says', async () => {
    const after = join(work, 'idle after.csv.gz')
    const rows = gunzipSync(readFileSync(capture))
      .toString('latin1')
      .split('\n', ROWS - 10)
    writeFileSync(after, gzipSync(`${rows.join('\n')}\n`, { level: 1 }))
    const before = readFileSync(join(work, 'job', 'job.yaml'), 'utf8')
    const run = await burnline('add', 'job', after)
    expect([run.status, run.stderr]).toEqual([0, ''])
    const text = readFileSync(join(work, 'job', 'job.yaml'), 'utf8')
    expect(text.startsWith(before)).toBe(true)
    expect(text.slice(before.length)).toMatch(/file: "captures\/idle after.csv.gz"\n {4}stage: after/)
    expect((await burnline('check', 'job')).status).toBe(0)
  })
  test('a folder that is no job: exit 65 or 66, nothing copied', async () => {
    expect((await burnline('add', 'nowhere', capture)).status).toBe(66)
  })
})

test('burnline check --json: every problem with its place and sentence', async () => {
  const job = join(work, 'job', 'job.yaml')
  const good = readFileSync(job, 'utf8')
  writeFileSync(job, good.replace(/^complaint: .*$/m, 'complain: odd'))
  const run = await burnline('check', 'job', '--json')
  writeFileSync(job, good)
  expect(run.status).toBe(65)
  const [one] = json(run.stdout) as {
    inOrder: boolean
    problems: { code: string; file: string; line: number | null; sentence: string }[]
  }[]
  expect(one!.inOrder).toBe(false)
  expect(one!.problems.map((p) => p.code)).toContain('unknown-key')
  expect(one!.problems.every((p) => p.sentence.length > 10 && p.file.length > 0)).toBe(true)
})

describe('burnline explain', () => {
  test('a code', async () =>
    expect((await burnline('explain', 'sync-missing')).stdout).toMatch(
      /^sync-missing\n {2}.+\n {2}Example: .+\n {2}.+\n$/,
    ))
  test('--json', async () =>
    expect(json((await burnline('explain', 'sync-missing', '--json')).stdout)).toMatchObject({
      code: 'sync-missing',
    }))
  test('no such code: the nearest is named, exit 64', async () => {
    const run = await burnline('explain', 'sync-mising')
    expect([run.status, run.stderr.includes('sync-missing')]).toEqual([64, true])
  })
  test('all codes', async () =>
    expect((await burnline('explain')).stdout.split('\n').length).toBeGreaterThan(60))
})

// https://no-color.org: any value that is not empty counts.
test.each([
  [{ isTTY: true, columns: 100 }, {}, { width: 100, plain: false }],
  [{ columns: 100 }, {}, { width: 100, plain: true }],
  [{ isTTY: true }, { NO_COLOR: '1' }, { width: 78, plain: true }],
  [{ isTTY: true }, { NO_COLOR: '' }, { width: 78, plain: false }],
  [{ isTTY: true, columns: 400 }, { TERM: 'dumb' }, { width: 120, plain: true }],
])('%j with %j', (stream, env, shown) => expect(shownOn(stream, env)).toEqual(shown))
