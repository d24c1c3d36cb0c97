import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest'
import { copyDemoJob, MAIN } from '../support/demo-job.ts'
import { inProcess } from '../support/in-process.ts'

/** Each test starts the program several times; on a busy machine that takes a while. */
vi.setConfig({ testTimeout: 240_000 })

let work: string
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-reading-'))
  for (const name of ['a', 'b']) copyDemoJob(join(work, name), `R-${name}`)
  write('few-rows.yaml', 'captureMostRows: 5000\n')
  write('more-rows.yaml', 'captureMostRows: 70000000\nlateRisePct: 20\n')
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

const write = (name: string, data: string | Uint8Array): void => writeFileSync(join(work, name), data)
const burnline = (...args: string[]) => inProcess(args, work)
/** In a process of its own, whose jobs run in threads where there are several. */
const apart = (...args: string[]) =>
  spawnSync(process.execPath, [MAIN, ...args], { cwd: work, encoding: 'utf8', input: '' })
/** Exit code and the codes of problems told. */
const told = async (...args: string[]) => codesOf(await burnline(...args))
const codesOf = ({
  status,
  stderr,
}: {
  status: number | null
  stderr: string
}): [number | null, string[]] => {
  return [status, [...new Set([...stderr.matchAll(/\[([a-z-]+)\]/g)].map((m) => m[1]!))]]
}

describe('a capture refused under a lowered limit is read under a raised one', () => {
  test('report, in this thread and in worker threads', async () => {
    for (const folders of [['a'], ['a', 'b']]) {
      expect(codesOf(apart('report', ...folders, '--out', 'out', '--limits', 'few-rows.yaml'))).toEqual([
        65,
        ['too-many-rows'],
      ])
      const read = apart('report', ...folders, '--out', 'out', '--limits', 'more-rows.yaml', '--json')
      expect(read.status, read.stderr).toBe(0)
    }
  })

  test('a report made under a wider limit does not stand for one refused, nor what was measured for it', async () => {
    expect((await burnline('report', 'a', '--out', 'stands')).status).toBe(0)
    expect((await burnline('report', 'a', '--out', 'stands')).stdout).toContain('up to date')
    expect(await told('report', 'a', '--out', 'stands', '--limits', 'few-rows.yaml')).toEqual([
      65,
      ['too-many-rows'],
    ])
  })

  test('it stands in the manifest, and in no table of the report', async () => {
    expect((await burnline('report', 'a', '--out', 'named', '--limits', 'more-rows.yaml')).status).toBe(0)
    const read = (file: string) =>
      JSON.parse(readFileSync(join(work, 'named', 'R-a', file), 'utf8')) as Record<string, unknown>
    expect((read('manifest.json')['made_with'] as { options: unknown }).options).toMatchObject({
      reading: '{"captureMostRows":70000000}',
    })
    const limits = read('result.json')['limits'] as { key: string; changed: boolean }[]
    expect(limits.filter((l) => l.changed || l.key.startsWith('capture'))).toEqual([])
  })

  test('check --captures', async () => {
    expect(await told('check', 'a', '--captures', '--limits', 'few-rows.yaml')).toEqual([
      65,
      ['too-many-rows'],
    ])
    expect((await burnline('check', 'a', '--captures', '--limits', 'more-rows.yaml')).status).toBe(0)
  })

  test('check of the job’s own files', async () => {
    write('small-job.yaml', 'jobMostKib: 0.5\nlogMostKib: 0.25\nphotoMostMib: 0.000001\n')
    expect(await told('check', 'a', '--limits', 'small-job.yaml')).toEqual([65, ['too-large']])
    expect((await burnline('check', 'a')).status).toBe(0)
  })

  test('peek, of a gzip bomb by size and by ratio; new says so as well', async () => {
    const rows = (from: number) => Array.from({ length: 2000 }, (_, i) => `${(from + i) * 10},0.5\n`).join('')
    write('bomb.csv.gz', gzipSync(`time (us),signal (V)\n${rows(0)}${'\n'.repeat(1_000_000)}`))
    write('by-size.yaml', 'captureMostMib: 0.5\n')
    write('by-ratio.yaml', 'captureMostRatio: 20\n')
    for (const limits of ['by-size.yaml', 'by-ratio.yaml']) {
      expect(await told('peek', 'bomb.csv.gz', '--limits', limits), limits).toEqual([65, ['too-large']])
      expect((await burnline('new', `new-${limits}`, 'bomb.csv.gz', '--limits', limits)).stderr).toContain(
        '[too-large]',
      )
    }
    expect((await burnline('peek', 'bomb.csv.gz')).status).toBe(0)
  })
})

test.each(['report', 'check', 'peek', 'new', 'list'])(
  '%s: a wrong file of limits is one error that names the key, exit 64',
  async (command) => {
    for (const [text, named] of [
      ['captureMostRow: 5\n', 'captureMostRow'],
      ['captureMostRows: 0\n', 'captureMostRows'],
      ['captureMostRows: many\n', 'captureMostRows'],
    ] as const) {
      write('wrong.yaml', text)
      const given = command === 'peek' ? join('a', 'captures', 'idle.csv.gz') : 'a'
      const run = await burnline(command, given, '--limits', 'wrong.yaml')
      expect(
        [
          run.status,
          run.stderr.split('\n').length,
          /^burnline: --limits: wrong\.yaml:/.test(run.stderr),
          run.stderr.includes(named),
        ],
        run.stderr,
      ).toEqual([64, 2, true, true])
    }
  },
)
