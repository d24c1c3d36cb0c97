import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { spawnSync } from 'node:child_process'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, expect, test } from 'vitest'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
let copy = ''

beforeAll(() => {
  copy = mkdtempSync(join(tmpdir(), 'burnline-kept-'))
  for (const part of [
    'dist/app',
    'dist/cli',
    'dist/.tsbuildinfo',
    'templates',
    'package.json',
    'package-lock.json',
  ])
    cpSync(join(ROOT, part), join(copy, part), { recursive: true })
  symlinkSync(join(ROOT, 'node_modules'), join(copy, 'node_modules'))
})
afterAll(() => rmSync(copy, { recursive: true }))

const codeFiles = () =>
  readdirSync(join(copy, 'dist/app'))
    .filter((name) => name.endsWith('.code'))
    .map((name) => join(copy, 'dist/app', name))
const check = (...flags: string[]) =>
  spawnSync(
    process.execPath,
    [...flags, join(copy, 'dist/cli/main.js'), 'check', join(ROOT, 'inputs/third-cylinder-valve')],
    { encoding: 'utf8' },
  )

test('the build keeps the code of what a report, a check and a look at a capture run', () => {
  expect(codeFiles().length).toBeGreaterThan(20)
  for (const name of ['load.js', 'run.js', 'charts.js', 'pdf.js'])
    expect(existsSync(join(copy, 'dist/app', name))).toBe(true)
})

test('kept code that is damaged, cut short, of other flags or gone costs time and nothing else', () => {
  const whole = check()
  expect(whole.status).toBe(0)
  const kept = new Map(codeFiles().map((file) => [file, readFileSync(file)]))
  const changes: ((bytes: Buffer) => Buffer)[] = [
    (bytes) => {
      const other = Buffer.from(bytes)
      for (let at = 40; at < other.length; at += 997) other[at]! ^= 4
      return other
    },
    (bytes) => bytes.subarray(0, bytes.length >> 1),
    () => Buffer.alloc(0),
  ]
  for (const change of changes) {
    for (const [file, bytes] of kept) writeFileSync(file, change(bytes))
    expect(check()).toMatchObject({ status: 0, stdout: whole.stdout, stderr: whole.stderr })
  }
  for (const [file, bytes] of kept) writeFileSync(file, bytes)
  expect(check('--max-lazy')).toMatchObject({ status: 0, stdout: whole.stdout, stderr: whole.stderr })
  for (const file of kept.keys()) rmSync(file)
  expect(check()).toMatchObject({ status: 0, stdout: whole.stdout, stderr: whole.stderr })
})
