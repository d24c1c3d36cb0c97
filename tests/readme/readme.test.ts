import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { readJob } from '../../src/job/read-job.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))
const readme = readFileSync(join(root, 'README.md'), 'utf8')
const blocks = (language: string) =>
  [...readme.matchAll(new RegExp('```' + language + '\n([\\s\\S]*?)```', 'g'))].map((m) => m[1]!)
const commands = blocks('sh').flatMap((block) => block.trim().split('\n'))

let work: string
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-readme-'))
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

/** Runs a README command as written, with the checkout's own program and an outputs folder of its own. */
function run(command: string): { status: number | null; stdout: string; stderr: string } {
  const words = command.split(' ')
  const ours =
    words[0] === 'npm'
      ? [join(root, 'src', 'bootstrap.mjs'), words[1]!, ...words.slice(2).filter((w) => w !== '--')]
      : [join(root, 'dist', 'cli', 'main.js'), ...words.slice(1)]
  const done = spawnSync(process.execPath, ours, {
    cwd: root,
    encoding: 'utf8',
    env: { ...process.env, BURNLINE_OUTPUTS: join(work, 'outputs'), INIT_CWD: root },
  })
  return { status: done.status, stdout: done.stdout, stderr: done.stderr }
}

describe('every command of the README', () => {
  test('the README has commands', () => expect(commands.length).toBeGreaterThanOrEqual(5))

  // `npm test` is this very run; it is listed so that a new command cannot slip in unseen.
  test.each(commands.filter((c) => c !== 'npm test'))('%s', (command) => {
    const moved = command.replaceAll(/--(out|history) outputs/g, `--$1 ${join(work, 'outputs')}`)
    const { status, stdout, stderr } = run(moved)
    expect(`${status} ${stderr}`).toMatch(/^0/)
    expect(stdout.length).toBeGreaterThan(0)
  })
})

describe('the first paragraph', () => {
  const [, paragraph] = readme.split('\n\n')
  // The commands above have reported a demo job into this folder.
  const output = () => {
    const root = join(work, 'outputs')
    return join(
      root,
      readdirSync(root).find((name) => existsSync(join(root, name, 'result.json')))!,
    )
  }

  test('states the job', () =>
    expect(paragraph).toMatch(
      /job folder.*measures every ignition event.*each cylinder.*how sure.*weighs the tests.*checks the repair.*printable PDF.*JSON and CSV/s,
    ))

  test('a report holds what it states', () => {
    const result = JSON.parse(readFileSync(join(output(), 'result.json'), 'utf8')) as {
      cylinders: { events: number; figures: Record<string, { low: number | null }> }[]
      tests: unknown[]
      conclusion: { faults: { share: number }[]; repair: { verdict: string } }
    }
    const events = readFileSync(join(output(), 'events.csv'), 'utf8').trimEnd().split('\n').length - 1
    const cylinders = readFileSync(join(output(), 'cylinders.csv'), 'utf8').trimEnd().split('\n').length - 1
    expect(result.cylinders).toHaveLength(cylinders)
    expect(result.cylinders.reduce((sum, c) => sum + c.events, 0)).toBeGreaterThan(100)
    expect(events).toBeGreaterThan(100)
    expect(result.cylinders.some((c) => Object.values(c.figures).some(({ low }) => low !== null))).toBe(true)
    expect(result.tests.length).toBeGreaterThan(0)
    expect(result.conclusion.faults.length).toBeGreaterThan(0)
    expect(result.conclusion.repair.verdict).not.toBe('')
    expect(readFileSync(join(output(), 'report.pdf')).subarray(0, 5).toString('latin1')).toBe('%PDF-')
  })
})

test('the example job folder of the README is valid as printed', async () => {
  const folder = join(work, 'job')
  mkdirSync(join(folder, 'captures'), { recursive: true })
  mkdirSync(join(folder, 'traces'))
  const yaml = blocks('yaml')[0]!
  writeFileSync(
    join(folder, 'job.yaml'),
    `${yaml}traces:\n  - { file: traces/spray-1.csv, time: { column: time_s, unit: s }, channels: [{ column: rpm, carries: speed, unit: rpm }] }\n`,
  )
  writeFileSync(join(folder, 'test-log.csv'), blocks('csv')[0]!)
  writeFileSync(join(folder, 'captures', 'idle-before.csv'), 'time_s,secondary_kv,sync_v\n0,0,0\n')
  writeFileSync(join(folder, 'traces', 'spray-1.csv'), 'time_s,rpm\n0,700\n')
  expect((await readJob(folder)).job.work_order).toBe('KB-26-0399')
})

test('files and folders the README names exist', () => {
  for (const path of [
    'templates/limits.yaml',
    'templates/job.schema.json',
    'templates/result.schema.json',
    'inputs',
    'DEVELOPERS.md',
    'outputs/example-page.png',
  ]) {
    expect(existsSync(join(root, path)), path).toBe(true)
  }
})
