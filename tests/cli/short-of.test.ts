import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, expect, test, vi } from 'vitest'
import { makeLogJob } from '../support/demo-job.ts'

/** A full disk, too few files, a folder that is gone, a reader that left: a line and a documented code, never a trace. */
vi.setConfig({ testTimeout: 120_000 })

const root = fileURLToPath(new URL('../..', import.meta.url))
const main = join(root, 'dist', 'cli', 'main.js')
const good = join(root, 'tests', 'fixtures', 'captures', 'a-four-level')
let work: string
const at = (...parts: string[]) => join(work, ...parts)
const shell = (command: string) => {
  const { status, stdout, stderr } = spawnSync('bash', ['-c', command], {
    cwd: work,
    encoding: 'utf8',
    timeout: 100_000,
    env: { ...process.env, BURNLINE: `${process.execPath} ${main}` },
  })
  expect(stderr).not.toMatch(/\n\s+at |internal error|Unhandled/)
  return { status, stdout, stderr }
}

beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-short-'))
  cpSync(good, at('job'), { recursive: true })
  makeLogJob(at('log-job'), 'H-0003')
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

test.each(['explain', 'list job --json', 'check job', 'report log-job --out outputs', '--help'])(
  '%s to a full device',
  (command) => {
    const { status, stderr } = shell(`$BURNLINE ${command} > /dev/full`)
    expect(status).toBe(73)
    expect(stderr).toContain('burnline: standard output: ENOSPC')
  },
)

test('a reader that closes its end', async () => {
  const child = spawn(process.execPath, [main, 'explain'], { stdio: ['ignore', 'pipe', 'pipe'] })
  child.stdout.destroy() // before the program has begun
  let said = ''
  child.stderr.on('data', (piece: Buffer) => {
    said += piece.toString()
  })
  const [code] = (await once(child, 'close')) as [number]
  expect([code, said]).toEqual([73, expect.stringContaining('burnline: standard output: EPIPE')])
})

test('standard error to a full device', () => {
  expect(shell('$BURNLINE report nowhere 2> /dev/full').status).toBe(66)
  expect(shell('$BURNLINE nonsense 2> /dev/full').status).toBe(64)
})

test('a working folder that is gone', () => {
  const { status, stderr } = shell('mkdir gone && cd gone && rmdir ../gone && $BURNLINE report job')
  expect([status, stderr.trim().split('\n').length]).toEqual([66, 1])
  expect(stderr).toContain('working folder')
})

test.each([
  ...[14, 16, 18, 22, 26].map((files) => [files, 'log-job'] as const),
  ...[20, 24, 28, 40].map((files) => [files, 'job'] as const),
])('%i open files for a %s', (files, job) => {
  const { status } = shell(`ulimit -n ${files}; $BURNLINE report ${job} --force --out few`)
  // Below some number Node itself does not start, and aborts.
  expect(files < 18 ? [null, 134, 75] : [0, 75]).toContain(status)
})

test.each([22, 24, 30])('%i open files for two jobs in threads', (files) => {
  cpSync(at('job'), at('second'), { recursive: true })
  const yaml = readFileSync(at('job', 'job.yaml'), 'utf8')
  writeFileSync(at('second', 'job.yaml'), yaml.replace(/^work_order: .*$/m, 'work_order: H-0002'))
  const { status, stderr } = shell(
    `ulimit -n ${files}; $BURNLINE report job second --jobs 2 --force --out few-two`,
  )
  expect([status, stderr.trim() === '']).toEqual(status === 0 ? [0, true] : [75, false])
})

test('a fleet whose files may not grow', () => {
  expect(shell('$BURNLINE report log-job --out rolled').status).toBe(0)
  const { status, stderr } = shell("trap '' XFSZ; ulimit -f 4; $BURNLINE fleet rolled --out roll-up")
  expect([status, stderr]).toEqual([73, expect.stringContaining('[cannot-write]')])
  expect(existsSync(at('roll-up'))).toBe(false)
})

test('a call that reports nothing leaves no empty ledger', () => {
  mkdirSync(at('empty-job'))
  shell('$BURNLINE report empty-job --ledger no-ledger')
  expect(existsSync(at('no-ledger'))).toBe(false)
})

const canMount = process.platform === 'linux' && spawnSync('unshare', ['-rm', 'true']).status === 0

/** Runs a command in a folder that takes at most some KiB, and leaves what stands in it in `left`. */
const onSmallDisk = (kib: number, command: string) =>
  shell(
    `mkdir -p small left && unshare -rm bash -c 'mount -t tmpfs -o size=${kib}k none small && (${command}); code=$?; rm -f small/fill; cp -a small/. left/; exit $code'`,
  )

test.skipIf(!canMount)('a ledger on a full disk is whole or not there, and its turn does not stay', () => {
  rmSync(at('left'), { recursive: true, force: true })
  expect(shell('$BURNLINE report log-job --out entered').status).toBe(0)
  const { status, stderr } = onSmallDisk(
    64,
    'dd if=/dev/zero of=small/fill bs=1k 2>/dev/null; $BURNLINE report log-job --out entered --ledger small/ledger',
  )
  expect([status, stderr]).toEqual([73, expect.stringContaining('[cannot-write]')])
  expect(readdirSync(at('left'))).toEqual([])
})

test.skipIf(!canMount)('keys on a full disk are all there or none', () => {
  rmSync(at('left'), { recursive: true, force: true })
  const { status } = onSmallDisk(
    64,
    'dd if=/dev/zero of=small/fill bs=1k count=60 2>/dev/null; $BURNLINE key small/shop.key',
  )
  expect(status).toBe(73)
  expect(readdirSync(at('left'))).toEqual([])
})

test.each([
  ['empty', ''],
  ['cut', 'some_machi'],
])('a turn left %s is taken over', (_, text) => {
  writeFileSync(at('ledger.turn'), text)
  const { status } = shell('$BURNLINE report log-job --out entered --ledger ledger')
  expect(status).toBe(0)
  expect(existsSync(at('ledger.turn'))).toBe(false)
  expect(readFileSync(at('ledger'), 'utf8')).toMatch(/\n$/)
})
