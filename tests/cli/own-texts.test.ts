import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest'
import type { Result } from '../../src/records/result.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { copyDemoJob } from '../support/demo-job.ts'
import { allText, openPdf } from '../support/read-pdf.ts'
import { inProcess } from '../support/in-process.ts'

/** Each test starts the program several times; on a busy machine that takes a while. */
vi.setConfig({ testTimeout: 240_000 })

const TITLE = 'What the boundaries are'
const NAMED = 'T. Sample says so'
const OWN = `en:
  report.limits.title: "${TITLE}"
  report.tests.title: "${NAMED}"
de:
  report.limits.title: "Was gilt"
`
let work: string
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-own-texts-'))
  copyDemoJob(join(work, 'job'), 'OWN')
  writeFileSync(join(work, 'own.yaml'), OWN)
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

const burnline = (...args: string[]) => inProcess(args, work)
const resultOf = (...path: string[]) =>
  JSON.parse(readFileSync(join(work, ...path, 'result.json'), 'utf8')) as Result
const pagesOf = async (...path: string[]) =>
  (await allText(await openPdf(readFileSync(join(work, ...path, 'report.pdf'))))).replace(/\s+/g, ' ')

describe('report --texts', () => {
  test('says the shop’s sentences, lists each beside the one shipped, and names the deviation', async () => {
    const run = await burnline('report', 'job', '--out', 'out', '--texts', 'own.yaml')
    expect([run.status, run.stderr]).toEqual([0, ''])
    const { templates } = loadTexts('en')
    expect(resultOf('out', 'OWN').own_texts).toEqual([
      { key: 'report.limits.title', sentence: TITLE, shipped: templates['report.limits.title'] },
      { key: 'report.tests.title', sentence: NAMED, shipped: templates['report.tests.title'] },
    ])
    const pages = await pagesOf('out', 'OWN')
    for (const words of [
      TITLE,
      templates['report.limits.title']!,
      templates['report.declaration.deviations-texts']!,
    ])
      expect(pages).toContain(words)
  })

  test('a report as shipped lists none, and is due again once sentences are changed', async () => {
    expect((await burnline('report', 'job', '--out', 'due')).status).toBe(0)
    expect(resultOf('due', 'OWN').own_texts).toBeUndefined()
    expect((await burnline('report', 'job', '--out', 'due')).stdout).toContain('up to date')
    const again = await burnline('report', 'job', '--out', 'due', '--texts', 'own.yaml', '--why')
    expect(again.stdout).not.toContain('up to date')
    expect((await burnline('report', 'job', '--out', 'due', '--texts', 'own.yaml')).stdout).toContain(
      'up to date',
    )
  })

  test('a reissue says which sentences were changed', async () => {
    expect((await burnline('report', 'job', '--out', 'first')).status).toBe(0)
    const run = await burnline(
      'report',
      'job',
      '--out',
      'second',
      '--texts',
      'own.yaml',
      '--replaces',
      'first',
    )
    expect([run.status, run.stderr]).toEqual([0, ''])
    expect(resultOf('second', 'OWN').revision!.changes.map((c) => [c.key, c.args])).toContainEqual([
      'revision.own-texts',
      { keys: 'report.limits.title, report.tests.title' },
    ])
  })

  test('a redacted copy says as shipped what holds a withheld word, and the rest the shop’s way', async () => {
    const run = await burnline(
      'redact',
      'job',
      '--redact',
      'technician',
      '--texts',
      'own.yaml',
      '--out',
      'copies',
      '--near',
      'keep',
    )
    expect([run.status, run.stderr]).toEqual([0, ''])
    const pages = await pagesOf('copies', 'OWN.redacted')
    expect(pages).toContain(TITLE)
    expect(pages).not.toContain('T. Sample')
  })

  test.each([
    ['en:\n  report.limits.titel: x\n', 'own.yaml:2:3', 'unknown-key'],
    ['en:\n  report.limits.title: 5\n', 'own.yaml:2:24', 'wrong-value'],
    ['en:\n  report.cautions.spray: "harmless"\n', 'own.yaml:2:3', 'text-kept'],
    ['en:\n  report.declaration.deviations-none: "None"\n', 'own.yaml:2:3', 'text-kept'],
    ['de:\n  report.cylinders.events: "n"\n', 'own.yaml:2:28', 'text-misfit'],
    ['en:\n  report.cylinders.events: "{count:d0} {more}"\n', 'own.yaml:2:28', 'text-misfit'],
    ['pl:\n  report.limits.title: x\n', 'own.yaml:1:1', 'unknown-key'],
    ['- a\n', 'own.yaml:1:1', 'wrong-value'],
  ])('%j is refused at its line', async (text, place, code) => {
    writeFileSync(join(work, 'wrong.yaml'), text)
    const run = await burnline('report', 'job', '--out', 'never', '--texts', 'wrong.yaml')
    expect(run.status).toBe(64)
    expect(run.stderr).toContain(`--texts: ${place.replace('own', 'wrong')}: `)
    expect(run.stderr).toContain(`[${code}]`)
  })
})
