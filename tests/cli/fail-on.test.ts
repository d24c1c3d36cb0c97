import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test, vi } from 'vitest'
import { EXIT } from '../../src/cli/exit-codes.ts'
import { plainTeller } from '../../src/cli/tell-outcomes.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { copyDemoJob } from '../support/demo-job.ts'
import { inProcess } from '../support/in-process.ts'

vi.setConfig({ testTimeout: 60_000 })

let work: string
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-fail-on-'))
  copyDemoJob(join(work, 'job'), 'F-1')
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

const report = (...more: string[]) => inProcess(['report', 'job', '--out', 'out', ...more], work)

test('a fault left ends with 1, new or up to date; the report is written, and the rule stands in its manifest', async () => {
  for (const again of [false, true]) {
    const { status, stdout, stderr } = await report('--fail-on', 'fault')
    expect(status).toBe(EXIT.ruleMet)
    expect(stdout.includes('up to date')).toBe(again)
    expect(stderr).toContain('F-1')
  }
  expect(readFileSync(join(work, 'out', 'F-1', 'manifest.json'), 'utf8')).toMatch(/"fail_on": ?"fault"/)
  expect((await report()).status).toBe(0)
})

test('a state that is none is refused by name', async () => {
  const { status, stderr } = await report('--fail-on', 'broken')
  expect(status).toBe(EXIT.usage)
  expect(stderr).toContain('not-known')
})

test('why a cylinder was not judged is told under the job’s line, and what to do', () => {
  const told = vi.spyOn(process.stderr, 'write').mockReturnValue(true)
  const line = vi.spyOn(process.stdout, 'write').mockReturnValue(true)
  const outcome = {
    folder: 'job',
    state: 'reported',
    workOrder: 'F-2',
    verdict: 'not judged',
    output: join(work, 'out', 'F-2'),
    manifest: '0'.repeat(64),
    upToDate: false,
    why: [],
    warnings: [],
    unjudged: [{ stage: 'before', cylinders: [2, 4], why: ['Too few firings.', 'Record 10 s.'] }],
  } as const
  plainTeller({ texts: loadTexts('en'), why: false }).told(outcome)
  const said = told.mock.calls.map(([words]) => String(words)).join('')
  told.mockRestore()
  line.mockRestore()
  expect(said).toContain('2, 4')
  expect(said).toContain('Too few firings. Record 10 s.')
})
