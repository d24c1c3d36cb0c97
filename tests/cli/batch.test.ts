import { spawn, spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { once } from 'node:events'
import {
  appendFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { deserialize, serialize } from 'node:v8'
import { deflateRawSync, gunzipSync, gzipSync, inflateRawSync } from 'node:zlib'
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest'
import { copyDemoJob, MAIN, makeLogJob } from '../support/demo-job.ts'

/** Each test starts the program several times; on a busy machine that takes a while. */
vi.setConfig({ testTimeout: 240_000 })

let work: string
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-batch-'))
  for (const name of ['a', 'c', 'd']) copyDemoJob(join(work, name), `B-${name}`)
  for (const name of ['b', 'e', 'f', 'bad']) makeLogJob(join(work, name), `B-${name}`)
  writeFileSync(
    join(work, 'bad', 'job.yaml'),
    readFileSync(join(work, 'bad', 'job.yaml'), 'utf8').replace('vehicle:', 'vehicel:'),
  )
  makeLogJob(join(work, 'again'), 'B-a')
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

const burnline = (...args: string[]) =>
  spawnSync(process.execPath, [MAIN, ...args], { cwd: work, encoding: 'utf8' })
const lines = (text: string) => text.trim().split('\n')
const records = (text: string) => lines(text).map((line) => JSON.parse(line) as Record<string, unknown>)
const sha256 = (path: string) => createHash('sha256').update(readFileSync(path)).digest('hex')

/** Names of the standing outputs, each checked against its own manifest; nothing else may stand but the cache. */
function standing(out: string): string[] {
  const names = readdirSync(join(work, out)).filter((name) => name !== '.burnline-cache')
  for (const name of names) {
    const folder = join(work, out, name)
    const { outputs } = JSON.parse(readFileSync(join(folder, 'manifest.json'), 'utf8')) as {
      outputs: { file: string; sha256: string }[]
    }
    for (const { file, sha256: stated } of outputs)
      expect(sha256(join(folder, file)), `${name}/${file}`).toBe(stated)
  }
  return names.sort()
}

/** Rows no capture has: a result that holds them was made from a kept measurement that was marked. */
const MARK = 7

/** Marks every kept measurement, and gives it the digest it then needs (src/batch/measured-store.ts). */
function markKept(store: string): void {
  const entries = readdirSync(store, { recursive: true, encoding: 'utf8' })
    .map((name) => join(store, name))
    .filter((path) => statSync(path).isFile())
  expect(entries).not.toHaveLength(0)
  for (const path of entries) {
    const entry = deserialize(inflateRawSync(readFileSync(path).subarray(32))) as { record: { rows: number } }
    entry.record.rows = MARK
    const contents = deflateRawSync(serialize(entry))
    writeFileSync(path, Buffer.concat([createHash('sha256').update(contents).digest(), contents]))
  }
}

describe('many folders in one call', () => {
  test('one line a job in the order given, a count at the end; the bad and the repeated fail alone', () => {
    const run = burnline('report', 'a', 'bad', 'b', 'again', 'nowhere', '--out', 'many')
    expect(lines(run.stdout).map((line) => line.split('  ')[0])).toEqual([
      'B-a',
      'bad',
      'B-b',
      'again',
      'nowhere',
      '5 jobs: 2 reported (0 up to date), 3 invalid, 0 skipped',
    ])
    expect(run.stderr).toMatch(/again\/job\.yaml.*"a"/)
    expect(run.status).toBe(65)
    expect(standing('many')).toEqual(['B-a', 'B-b'])
  })

  test('the next call finds what is up to date, says so, and makes only what changed', () => {
    appendFileSync(
      join(work, 'b', 'test-log.csv'),
      '2026-03-20T10:00:00-05:00,note,,,,,,,,,,,,,checked again\n',
    )
    rmSync(join(work, 'many', 'B-a', 'tests.csv'))
    const run = burnline('report', 'a', 'b', '--out', 'many', '--why')
    expect(run.stdout).toMatch(/because output tests\.csv/)
    expect(run.stdout).toMatch(/because input test-log\.csv changed/)
    const again = burnline('report', 'a', 'b', '--out', 'many')
    expect(lines(again.stdout)[0]).toMatch(/^B-a {2}.+ {2}many\/B-a\/report\.pdf {2}up to date$/)
    expect(lines(again.stdout)[2]).toBe('2 jobs: 2 reported (2 up to date), 0 invalid, 0 skipped')
    expect([again.status, again.stderr]).toEqual([0, ''])
  })

  test('--force makes them all the same, byte for byte, from kept measurements or anew', () => {
    const before = sha256(join(work, 'many', 'B-a', 'manifest.json'))
    expect(burnline('report', 'a', '--out', 'many', '--force').stdout).not.toContain('up to date')
    expect(sha256(join(work, 'many', 'B-a', 'manifest.json'))).toBe(before)
    rmSync(join(work, 'many', '.burnline-cache'), { recursive: true })
    burnline('report', 'a', '--out', 'many', '--force')
    expect(sha256(join(work, 'many', 'B-a', 'manifest.json'))).toBe(before)
  })

  test('other limits or another language: reported again from the kept measurement; another capture: measured anew', () => {
    burnline('report', 'a', '--out', 'kept')
    markKept(join(work, 'kept', '.burnline-cache'))
    const rows = () =>
      (
        JSON.parse(readFileSync(join(work, 'kept', 'B-a', 'result.json'), 'utf8')) as {
          captures: { rows: number }[]
        }
      ).captures[0]!.rows
    const measured = rows()
    writeFileSync(join(work, 'own-limits.yaml'), 'lateRisePct: 25\n')
    expect(burnline('report', 'a', '--out', 'kept', '--limits', 'own-limits.yaml', '--why').stdout).toContain(
      'because',
    )
    expect(rows()).toBe(MARK)
    expect(burnline('report', 'a', '--out', 'kept', '--language', 'de', '--why').stdout).toContain('because')
    expect(rows()).toBe(MARK)
    const capture = join(work, 'a', 'captures', 'idle.csv.gz')
    const before = readFileSync(capture)
    try {
      writeFileSync(capture, gzipSync(gunzipSync(before), { level: 1 })) // the same figures in other bytes
      burnline('report', 'a', '--out', 'kept')
      expect(rows()).toBe(measured)
    } finally {
      writeFileSync(capture, before)
    }
  })

  test('--json: one object a line and job in the order given, then the total', () => {
    const run = burnline('report', 'b', 'bad', 'a', '--out', 'many', '--json')
    const [b, bad, a, total] = records(run.stdout)
    expect([b, bad, a].map((r) => [r!['folder'], r!['state']])).toEqual([
      ['b', 'reported'],
      ['bad', 'invalid'],
      ['a', 'reported'],
    ])
    expect(a).toMatchObject({ work_order: 'B-a', output: 'many/B-a', up_to_date: true })
    expect(bad).toMatchObject({
      problems: expect.arrayContaining([
        expect.objectContaining({ code: 'unknown-key', file: 'job.yaml' }),
      ]) as unknown,
    })
    expect(total).toEqual({ total: { jobs: 3, reported: 2, up_to_date: 2, invalid: 1, skipped: 0 } })
    expect([run.status, run.stderr]).toEqual([65, ''])
  })

  test('parts from a listed snapshot: every job in one of them, whatever the order of the list', () => {
    const list = burnline('list', 'f', 'e', 'd', 'c', '--json').stdout
    expect(records(list).map((r) => r['work_order'])).toEqual(['B-f', 'B-e', 'B-d', 'B-c'])
    writeFileSync(join(work, 'list.jsonl'), list)
    writeFileSync(join(work, 'turned.jsonl'), lines(list).reverse().join('\n'))
    const one = records(
      burnline('report', '--list', 'list.jsonl', '--part', '1/2', '--out', 'parts', '--json').stdout,
    )
    const two = records(
      burnline('report', '--list', 'turned.jsonl', '--part', '2/2', '--out', 'parts', '--json').stdout,
    )
    const folders = [...one, ...two].flatMap((r) => r['folder'] ?? [])
    expect(folders.sort()).toEqual(['c', 'd', 'e', 'f'])
    expect(standing('parts')).toEqual(['B-c', 'B-d', 'B-e', 'B-f'])
    for (const part of ['0/2', '3/2', 'x', '1'])
      expect(burnline('report', 'a', '--part', part).status).toBe(64)
  })

  test('list takes a folder of job folders, and gives the digest that sha256sum gives', () => {
    const [line] = records(burnline('list', '.', '--json').stdout)
    expect(line).toMatchObject({ folder: 'a', work_order: 'B-a' })
    const names = readdirSync(join(work, 'a'), { recursive: true, encoding: 'utf8' })
      .filter((f) => /\.\w+$/.test(f))
      .sort()
    const sums = names.map((name) => `${sha256(join(work, 'a', name))}  ${name}\n`).join('')
    expect(line!['sha256']).toBe(createHash('sha256').update(sums).digest('hex'))
  })
})

describe('a call that is stopped', () => {
  test.each([
    ['SIGTERM', 75],
    ['SIGINT', 130],
  ] as const)(
    '%s: ends within 10 s with exit code %i, nothing half written; the next call goes on',
    async (signal, code) => {
      const out = `stopped-${signal}`
      const jobs = ['a', 'c', 'd', 'b']
      const child = spawn(
        process.execPath,
        [MAIN, 'report', ...jobs, '--out', out, '--jobs', '1', '--json'],
        { cwd: work, stdio: ['ignore', 'pipe', 'ignore'] },
      )
      let told = ''
      child.stdout.on('data', (piece: Buffer) => {
        told += piece.toString()
      })
      await once(child.stdout, 'data')
      const sentMs = performance.now()
      child.kill(signal)
      const [exit] = (await once(child, 'exit')) as [number]
      expect(performance.now() - sentMs).toBeLessThan(10_000)
      expect(exit).toBe(code)
      const { total } = records(told).at(-1) as { total: Record<string, number> }
      expect(total['jobs']).toBe(4)
      expect(total['reported']! + total['invalid']! + total['skipped']!).toBe(4)
      expect(total['skipped']).toBeGreaterThan(0)
      expect(standing(out)).toHaveLength(total['reported']!)
      const next = records(burnline('report', ...jobs, '--out', out, '--json').stdout).at(-1) as {
        total: Record<string, number>
      }
      expect(next.total).toMatchObject({ reported: 4, up_to_date: total['reported'] })
    },
  )
})

describe('outputs that cannot be written', () => {
  test('a file may not grow: exit 73, a code, and what stood before stands', () => {
    burnline('report', 'b', '--out', 'limited')
    const before = sha256(join(work, 'limited', 'B-b', 'manifest.json'))
    const run = spawnSync(
      'sh',
      [
        '-c',
        'ulimit -f 16; exec "$@"',
        'sh',
        process.execPath,
        MAIN,
        'report',
        'b',
        '--out',
        'limited',
        '--force',
      ],
      { cwd: work, encoding: 'utf8' },
    )
    expect([run.status, run.stderr]).toEqual([73, expect.stringContaining('larger than allowed')])
    expect(standing('limited')).toEqual(['B-b'])
    expect(sha256(join(work, 'limited', 'B-b', 'manifest.json'))).toBe(before)
  })

  const canMount = process.platform === 'linux' && process.getuid?.() === 0
  test.skipIf(!canMount)(
    'a full disk and a read-only one (needs to mount): exit 73, nothing half written, and the next call converges',
    ({ skip }) => {
      const disk = join(work, 'disk')
      mkdirSync(disk)
      const mount = (...args: string[]) => spawnSync('mount', args, { encoding: 'utf8' }).status === 0
      if (!mount('-t', 'tmpfs', '-o', 'size=100k', 'tmpfs', disk))
        return skip('skipped: mounting is not allowed here')
      try {
        const full = burnline('report', 'b', '--out', disk)
        expect([full.status, full.stderr]).toEqual([73, expect.stringContaining('disk is full')])
        expect(readdirSync(disk).filter((name) => name !== '.burnline-cache')).toEqual([])
        mount('-o', 'remount,size=30m', disk)
        expect(burnline('report', 'b', '--out', disk).status).toBe(0)
        expect(standing('disk')).toEqual(['B-b'])
        mount('-o', 'remount,ro', disk)
        const closed = burnline('report', 'b', '--out', disk, '--force')
        expect([closed.status, closed.stderr]).toEqual([73, expect.stringContaining('read-only')])
        expect(standing('disk')).toEqual(['B-b'])
      } finally {
        spawnSync('umount', [disk])
      }
    },
  )
})

test('two runs on one job at once end with one complete result', async () => {
  const runs = [0, 1].map(() =>
    spawn(process.execPath, [MAIN, 'report', 'b', '--out', 'both', '--force'], {
      cwd: work,
      stdio: 'ignore',
    }),
  )
  const exits = await Promise.all(runs.map(async (run) => ((await once(run, 'exit')) as [number])[0]))
  expect(exits).toEqual([0, 0])
  expect(standing('both')).toEqual(['B-b'])
})

test('a reader that closes its end early stops no job', () => {
  const run = spawnSync(
    'sh',
    ['-c', `"${process.execPath}" "${MAIN}" report b e f --out cut --json | head -n 1`],
    { cwd: work, encoding: 'utf8' },
  )
  // One line tells it, or none where all was written before the reader went.
  expect(run.stderr).toMatch(/^(burnline: standard output: EPIPE; [^\n]*\n)?$/)
  expect(existsSync(join(work, 'cut', 'B-f', 'report.pdf'))).toBe(true)
})
