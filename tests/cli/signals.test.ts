import { spawn } from 'node:child_process'
import { once } from 'node:events'
import {
  appendFileSync,
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, expect, test, vi } from 'vitest'
import { sealManifest } from '../../src/seal/seal-manifest.ts'
import { inventFleet, recordOf, writeOutput } from '../fleet/fleet-jobs.ts'

/** SIGTERM is heard within five seconds whatever runs; jobs under way may end within five more, and outputs stay whole. */
vi.setConfig({ testTimeout: 120_000 })
const HEARD_MS = 5000
const GRACE_MS = 5000
const TRY_AGAIN = 75

const root = fileURLToPath(new URL('../..', import.meta.url))
const main = join(root, 'dist', 'cli', 'main.js')
let work: string
const at = (name: string) => join(work, name)

/** A job whose log takes longer to weigh than this test waits. */
function longJob(name: string): void {
  cpSync(join(root, 'inputs', 'third-cylinder-valve'), at(name), { recursive: true })
  const yaml = join(at(name), 'job.yaml')
  writeFileSync(yaml, readFileSync(yaml, 'utf8').replace(/^work_order: .*$/m, `work_order: ${name}`))
  const two = (n: number) => String(n).padStart(2, '0')
  const rows = Array.from(
    { length: 9000 },
    (_, i) =>
      `2026-03-04T11:${two(Math.floor(i / 60) % 60)}:${two(i % 60)}+00:00,spray,hose ${i},before,idle,propane,,,,,,,,response,`,
  )
  appendFileSync(join(at(name), 'test-log.csv'), `${rows.join('\n')}\n`)
}

beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-signals-'))
  for (const name of ['L-1', 'L-2', 'L-3']) longJob(name)
  writeFileSync(
    at('records'),
    inventFleet(2000, 30_000)
      .map((job) => `${JSON.stringify(recordOf(job))}\n`)
      .join(''),
  )
  const output = writeOutput(work, { workOrder: 'A-1', date: '2026-03-04' })
  const { seal: _, ...manifest } = JSON.parse(readFileSync(join(output, 'manifest.json'), 'utf8')) as {
    seal: unknown
  }
  const bytes = 7 * 2 ** 30
  const outputs = [{ file: 'events.csv', sha256: '0'.repeat(64), bytes }]
  writeFileSync(
    join(output, 'manifest.json'),
    sealManifest(`${JSON.stringify({ ...manifest, outputs }, null, 2)}\n`),
  )
  writeFileSync(join(output, 'events.csv'), '')
  truncateSync(join(output, 'events.csv'), bytes)
})
const hasNameIn = (folder: string, name: RegExp): boolean =>
  existsSync(folder) && readdirSync(folder).some((each) => name.test(each))

/** Whether a process reads a file by now; where the system does not tell, as long as it takes to begin. */
const began = new Map<number, number>()
function hasOpen(pid: number, file: string): boolean {
  if (!existsSync('/proc/self/fd')) {
    began.set(pid, began.get(pid) ?? performance.now())
    return performance.now() - began.get(pid)! > 700
  }
  try {
    return readdirSync(`/proc/${pid}/fd`).some((fd) => readlinkSync(`/proc/${pid}/fd/${fd}`).endsWith(file))
  } catch {
    return false // a descriptor closed while it was looked at
  }
}

afterAll(() => rmSync(work, { recursive: true, force: true }))

/** Starts the program, asks it to stop once it computes, and tells when it was heard and how it ended. */
async function stopped(args: readonly string[], computes: (pid: number) => boolean) {
  const child = spawn(process.execPath, [main, ...args], { cwd: work })
  let said = ''
  let sentMs = Infinity
  let heardMs: number | undefined
  child.stderr.on('data', (piece: Buffer) => {
    said += piece.toString()
    if (said.includes('Stopping')) heardMs ??= performance.now() - sentMs
  })
  child.stdout.resume()
  const timer = setInterval(() => {
    if (sentMs !== Infinity || !computes(child.pid!)) return
    sentMs = performance.now()
    child.kill('SIGTERM')
  }, 20)
  const [code, signal] = (await once(child, 'exit')) as [number | null, string | null]
  clearInterval(timer)
  return { code, signal, heardMs, endedMs: performance.now() - sentMs, said }
}

test.each([
  ['one job', ['L-1']],
  ['two jobs in threads', ['L-2', 'L-3', '--jobs', '2']],
])('a report of %s that computes', async (name, folders) => {
  const out = name.replaceAll(' ', '-')
  // What was measured is kept; what follows, weighing the log, takes longest by far.
  const measured = () => hasNameIn(join(at(out), '.burnline-cache'), /^[0-9a-f]{2}$/)
  const { code, heardMs, endedMs, said } = await stopped(['report', ...folders, '--out', out], measured)
  expect([code, said.includes('Stopping')]).toEqual([TRY_AGAIN, true])
  expect(heardMs).toBeLessThan(HEARD_MS)
  expect(endedMs).toBeLessThan(HEARD_MS + GRACE_MS)
})

test.each([
  ['verify', ['A-1'], (pid: number) => hasOpen(pid, 'events.csv')],
  ['fleet', ['records', '--out', 'fleet'], () => hasNameIn(work, /^\.burnline-tmp-/)],
])('%s ends at once', async (command, args, computes) => {
  const { signal, endedMs } = await stopped([command, ...args], computes)
  expect(signal).toBe('SIGTERM')
  expect(endedMs).toBeLessThan(HEARD_MS)
})
