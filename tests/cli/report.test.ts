import { spawnSync } from 'node:child_process'
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { createHash } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { resultSchema } from '../../src/records/result.ts'
import { MAIN } from '../support/demo-job.ts'
import { inProcess } from '../support/in-process.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))
const good = join(root, 'tests', 'fixtures', 'captures', 'a-four-level')
let work: string
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-cli-'))
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

const burnline = (args: readonly string[]) => inProcess(args, work)
/** In a process of its own, whose jobs run in threads where there are several. */
const apart = (args: readonly string[]) =>
  spawnSync(process.execPath, [MAIN, ...args], { cwd: work, encoding: 'utf8' })

const digest = (path: string) => createHash('sha256').update(readFileSync(path)).digest('hex')

describe('burnline report', () => {
  test("a good job: exit 0, one line with verdict and PDF, the contract's files, a manifest that holds", async () => {
    const run = await burnline(['report', good, '--out', 'one'])
    expect(run.stderr).not.toContain('error')
    expect(run.status).toBe(0)
    expect(run.stdout.trim().split('\n')).toHaveLength(1)
    expect(run.stdout).toMatch(
      /^H-0001 {2}no fault found, every cylinder in order {2}one[/\\]H-0001[/\\]report\.pdf/,
    )
    const out = join(work, 'one', 'H-0001')
    expect(readdirSync(out).sort()).toEqual([
      'charts',
      'claim.txt',
      'cylinders.csv',
      'events.csv',
      'manifest.json',
      'report.pdf',
      'result.json',
      'tests.csv',
    ])
    resultSchema.parse(JSON.parse(readFileSync(join(out, 'result.json'), 'utf8')))
    const manifest = JSON.parse(readFileSync(join(out, 'manifest.json'), 'utf8')) as {
      outputs: { file: string; sha256: string }[]
      inputs: { file: string; sha256: string }[]
    }
    for (const { file, sha256 } of manifest.outputs) expect(digest(join(out, file)), file).toBe(sha256)
    for (const { file, sha256 } of manifest.inputs) expect(digest(join(good, file)), file).toBe(sha256)
    expect(manifest.outputs.map((o) => o.file)).toContain('report.pdf')
  })

  test('one bad job never stops the others: exit 65, the good one reported, nothing of the bad one written', () => {
    const bad = join(work, 'bad')
    cpSync(good, bad, { recursive: true })
    writeFileSync(
      join(bad, 'job.yaml'),
      readFileSync(join(bad, 'job.yaml'), 'utf8')
        .replace('ignition: distributor', 'igniton: distributor')
        .replace('H-0001', 'H-0009'),
    )
    const run = apart(['report', bad, good, '--out', 'three'])
    expect(run.status).toBe(65)
    expect(run.stderr).toMatch(/bad\/job\.yaml:\d+.*igniton.*ignition/)
    expect(readdirSync(join(work, 'three')).filter((name) => !name.startsWith('.'))).toEqual(['H-0001'])
    expect(existsSync(join(work, 'three', 'H-0001', 'report.pdf'))).toBe(true)
  })

  test('the same work order twice in one call: the second is refused and names the first', () => {
    cpSync(good, join(work, 'elsewhere'), { recursive: true })
    const run = apart(['report', good, join(work, 'elsewhere'), '--out', 'four'])
    expect(run.status).toBe(65)
    expect(run.stderr).toMatch(/elsewhere\/job\.yaml.*a-four-level/)
  })

  test('no such folder: exit 66', async () => {
    expect((await burnline(['report', 'nowhere', '--out', 'five'])).status).toBe(66)
  })

  test('a wrong command line: exit 64, one line', async () => {
    for (const args of [
      [],
      ['reprot', good],
      ['report', good, '--paper', 'A4'],
      ['report', good, '--page', 'B5'],
    ]) {
      const run = await burnline(args)
      expect([args.join(' '), run.status]).toEqual([args.join(' '), 64])
    }
  })

  test('an output that cannot be written: exit 73', async () => {
    writeFileSync(join(work, 'file'), '')
    expect((await burnline(['report', good, '--out', join('file', 'out')])).status).toBe(73)
  })
})

test('burnline check says that a good folder is in order, and does not decode its captures', async () => {
  const run = await burnline(['check', good])
  expect([run.status, run.stdout.includes('in order')]).toEqual([0, true])
})
