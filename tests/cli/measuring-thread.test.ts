import { spawnSync } from 'node:child_process'
import {
  appendFileSync,
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  statSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, expect, test } from 'vitest'

/** One job alone measures in a second thread where there is a processor for it: nothing that is written or said may show it. */

const root = fileURLToPath(new URL('../..', import.meta.url))
const dist = join(root, 'dist')
let work: string
beforeAll(() => {
  work = realpathSync(mkdtempSync(join(tmpdir(), 'burnline-thread-')))
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

/** Reports a folder with so many processors; what it said, and every file it wrote. */
function reported(
  folder: string,
  jobs: 1 | 2,
): { said: string; status: number | null; files: Map<string, string> } {
  const out = join(work, `out-${jobs}`)
  rmSync(out, { recursive: true, force: true })
  const run = spawnSync(
    process.execPath,
    [join(dist, 'cli', 'main.js'), 'report', folder, '--jobs', String(jobs), '--out', out],
    { encoding: 'utf8', cwd: work },
  )
  const names = existsSync(out)
    ? readdirSync(out, { recursive: true, encoding: 'utf8' })
        .filter((name) => !name.startsWith('.') && statSync(join(out, name)).isFile())
        .sort()
    : []
  return {
    said: `${run.stdout}${run.stderr}`.replaceAll(`out-${jobs}`, 'out'),
    status: run.status,
    files: new Map(names.map((name) => [name, readFileSync(join(out, name)).toString('latin1')])),
  }
}

test('the thread is there to be used in both forms of the built program', () => {
  expect(existsSync(join(dist, 'batch', 'measure-worker.js'))).toBe(true)
  expect(existsSync(join(dist, 'app', 'measure-worker.js')) || !existsSync(join(dist, 'app', 'run.js'))).toBe(
    true,
  )
})

test('the same bytes of a job with several captures, a trace and a log', () => {
  const demo = join(root, 'inputs', 'wasted-spark-runner-two')
  const [one, two] = [reported(demo, 1), reported(demo, 2)]
  expect(one.status).toBe(0)
  expect(one.files.size).toBeGreaterThan(15)
  expect(two).toEqual(one)
})

test('the same problems in the same order of captures, trace and log that are all damaged', () => {
  const folder = join(work, 'damaged')
  cpSync(join(root, 'inputs', 'wasted-spark-runner-two'), folder, { recursive: true })
  for (const place of ['captures', 'traces']) {
    for (const name of readdirSync(join(folder, place)))
      appendFileSync(join(folder, place, name), 'x,y\nnot,a row\n')
  }
  const [one, two] = [reported(folder, 1), reported(folder, 2)]
  expect(one.status).toBe(65)
  expect(one.said).toContain('captures/')
  expect(two).toEqual(one)
})
