import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { survey, withEarlier } from '../../src/batch/survey.ts'
import { workOrderOf } from '../../src/batch/work-order-of.ts'
import { parse } from 'yaml'

describe('the work order of a job.yaml, without reading the whole of it', () => {
  test.each([
    ['work_order: "24-0713"'],
    ["work_order: '24-0713' # a remark"],
    ['work_order: KB-26-0301'],
    ['work_order:   A.b_c\r\nformat: 1\r\n'],
    ['format: 1\nwork_order: "24 0713"\nopened: 2026-03-04'],
    ['work_order: "a\\u0062"'],
    ['{ format: 1, work_order: "x-1" }'],
    ['"work_order": x-1'],
    ['work_order: >-\n  x-1'],
    ['work_order: two words'],
    ['a: &n x-1\nwork_order: *n'],
  ])('%j is what a YAML reader says', (text) => {
    expect(workOrderOf(text)).toBe((parse(text) as { work_order: string }).work_order)
  })

  test.each([
    ['work_order: 24'],
    ['work_order: 0713'],
    ['work_order: true'],
    ['format: 1'],
    [''],
    ['work_order: "../up"'],
    ['work_order: "a/b"'],
    ['# work_order: a'],
    [' work_order: "\n'],
  ])('%j has none that is valid', (text) => {
    expect(workOrderOf(text)).toBeUndefined()
  })
})

test('the first folder in the order given has a work order; every later one names it', () => {
  const jobs = [
    ['a', 'X'],
    ['b', 'Y'],
    ['c', 'X'],
    ['d', undefined],
    ['e', undefined],
    ['f', 'X'],
  ] as const
  const found = withEarlier(jobs.map(([folder, workOrder]) => ({ folder, workOrder, bytes: 1 })))
  expect(found.map((j) => j.earlier)).toEqual([undefined, undefined, 'a', undefined, undefined, 'a'])
})

test('a folder that is not there is surveyed as an empty one: reporting it says why', () => {
  expect(survey(['nowhere/at/all'])).toEqual([
    { folder: 'nowhere/at/all', workOrder: undefined, bytes: 0, earlier: undefined },
  ])
})

test.runIf(process.platform !== 'win32')(
  'a job.yaml that is a pipe or a folder, or too large, is not waited for and has no work order',
  () => {
    const work = mkdtempSync(join(tmpdir(), 'burnline-survey-'))
    const [pipe, inside, large] = ['pipe', 'inside', 'large'].map((name) => join(work, name)) as [
      string,
      string,
      string,
    ]
    for (const folder of [pipe, inside, large]) mkdirSync(folder)
    execFileSync('mkfifo', [join(pipe, 'job.yaml')])
    mkdirSync(join(inside, 'job.yaml'))
    writeFileSync(join(large, 'job.yaml'), `work_order: R-2\n#${'x'.repeat(200_000)}`)
    expect(survey([pipe, inside, large]).map(({ workOrder }) => workOrder)).toEqual([
      undefined,
      undefined,
      undefined,
    ])
    rmSync(work, { recursive: true })
  },
)
