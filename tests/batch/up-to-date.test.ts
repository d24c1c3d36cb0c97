import {
  appendFileSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { sha256 } from '../../src/maths/sha256.ts'
import type { MadeWith } from '../../src/evidence/made-with.ts'
import { sealManifest } from '../../src/seal/seal-manifest.ts'
import { shop } from '../seal/keys.ts'
import { standingOf, type Wanted } from '../../src/batch/up-to-date.ts'
import { loadLimits, withValues, type Limits } from '../../src/limits/limits.ts'

const MADE: MadeWith = {
  program: 'p1',
  templates: { 'limits.yaml': 'l1', 'texts/en.yaml': 't1' },
  options: { page: 'A4', captures: false },
}
const limits = (lateRisePct: number): Limits => withValues(loadLimits(), { lateRisePct })
const INPUTS: Record<string, string> = {
  'job.yaml': 'work_order: A-1\n',
  'captures/one.csv': 'time,kv\n0,1\n',
}

let root: string
let job: string
let output: string
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'burnline-stand-'))
  job = join(root, 'job')
  output = join(root, 'outputs', 'A-1')
  mkdirSync(join(job, 'captures'), { recursive: true })
  mkdirSync(output, { recursive: true })
  for (const [file, text] of Object.entries(INPUTS)) writeFileSync(join(job, file), text)
  writeFileSync(join(output, 'cylinders.csv'), 'a,b\n')
  const listed = (files: Record<string, string>) =>
    Object.entries(files).map(([file, text]) => ({ file, sha256: sha256(text), bytes: text.length }))
  writeFileSync(
    join(output, 'manifest.json'),
    sealedJson({
      format: 1,
      program: { name: 'burnline', version: '1' },
      work_order: 'A-1',
      verdict: 'level; not checked',
      made_with: MADE,
      inputs: listed(INPUTS),
      outputs: listed({ 'cylinders.csv': 'a,b\n' }),
      limits: Object.entries(limits(20)).map(([key, { value }]) => ({ key, value })),
    }),
  )
})
afterEach(() => rmSync(root, { recursive: true, force: true }))

const sealedJson = (manifest: object) => sealManifest(`${JSON.stringify(manifest, null, 2)}\n`)

const look = (wanted: Partial<Wanted> = {}) =>
  standingOf(job, 'A-1', {
    outRoot: join(root, 'outputs'),
    made: MADE,
    limits: limits(20),
    all: true,
    ...wanted,
  })
const CURRENT = { state: 'current', workOrder: 'A-1', verdict: 'level; not checked' }
const due = (...why: object[]) => ({ state: 'due', why })

test('nothing changed: up to date, with its verdict, whatever the time stamps say', async () => {
  utimesSync(join(job, 'captures', 'one.csv'), 4e9, 4e9)
  utimesSync(join(output, 'cylinders.csv'), 1, 1)
  expect(await look()).toMatchObject(CURRENT)
})

test('one byte of an input changed, its size and time stamp not: due, and the file is named', async () => {
  const path = join(job, 'captures', 'one.csv')
  writeFileSync(path, 'time,kv\n0,2\n')
  utimesSync(path, 1, 1)
  expect(await look()).toEqual(due({ code: 'input', args: { file: 'captures/one.csv' } }))
})

test('an input gone, or moved out of the folder behind a link, or a test log that is new', async () => {
  const path = join(job, 'captures', 'one.csv')
  const elsewhere = join(root, 'one.csv')
  writeFileSync(elsewhere, readFileSync(path))
  rmSync(path)
  const gone = due({ code: 'input', args: { file: 'captures/one.csv' } })
  expect(await look()).toEqual(gone)
  symlinkSync(elsewhere, path)
  expect(await look()).toEqual(gone)
  rmSync(path)
  writeFileSync(path, readFileSync(elsewhere))
  writeFileSync(join(job, 'test-log.csv'), 'at,step\n')
  expect(await look()).toEqual(due({ code: 'input', args: { file: 'test-log.csv' } }))
})

test.each([
  ['program', { made: { ...MADE, program: 'p2' } }, { code: 'program', args: {} }],
  [
    'texts',
    { made: { ...MADE, templates: { ...MADE.templates, 'texts/en.yaml': 't2' } } },
    { code: 'template', args: { file: 'texts/en.yaml' } },
  ],
  [
    'a template that is new',
    { made: { ...MADE, templates: { ...MADE.templates, 'causes.yaml': 'c' } } },
    { code: 'template', args: { file: 'causes.yaml' } },
  ],
  [
    'a limit',
    { made: { ...MADE, templates: { ...MADE.templates, 'limits.yaml': 'l2' } }, limits: limits(25) },
    { code: 'limit', args: { limit: 'lateRisePct', from: '20', to: '25' } },
  ],
  [
    'the words beside a limit',
    { made: { ...MADE, templates: { ...MADE.templates, 'limits.yaml': 'l2' } } },
    { code: 'template', args: { file: 'limits.yaml' } },
  ],
  [
    'an option',
    { made: { ...MADE, options: { ...MADE.options, page: 'LETTER' } } },
    { code: 'option', args: { option: 'page', from: 'A4', to: 'LETTER' } },
  ],
])('%s changed: due, and the change is named', async (_, wanted, why) => {
  expect(await look(wanted)).toEqual(due(why))
})

test('every change is named where all are asked for', async () => {
  appendFileSync(join(job, 'job.yaml'), '# a remark\n')
  writeFileSync(join(output, 'cylinders.csv'), 'longer')
  expect(await look({ made: { ...MADE, program: 'p2' } })).toEqual(
    due(
      { code: 'program', args: {} },
      { code: 'output', args: { file: 'cylinders.csv' } },
      { code: 'input', args: { file: 'job.yaml' } },
    ),
  )
})

test('an output missing or cut short, a manifest damaged, or no output: due', async () => {
  rmSync(join(output, 'cylinders.csv'))
  expect(await look()).toEqual(due({ code: 'output', args: { file: 'cylinders.csv' } }))
  writeFileSync(join(output, 'manifest.json'), '{"format": 1, "prog')
  expect(await look()).toEqual(due({ code: 'new', args: {} }))
  rmSync(output, { recursive: true })
  expect(await look()).toEqual(due({ code: 'new', args: {} }))
  expect(
    await standingOf(job, undefined, { outRoot: root, made: MADE, limits: limits(20), all: true }),
  ).toEqual(due({ code: 'new', args: {} }))
})

test('an output whose folder was replaced by a file is due, not a fault', async () => {
  const path = join(output, 'manifest.json')
  const manifest = JSON.parse(readFileSync(path, 'utf8')) as { outputs: { file: string }[]; seal?: unknown }
  delete manifest.seal
  manifest.outputs[0]!.file = 'cylinders.csv/one.svg'
  writeFileSync(path, sealedJson(manifest))
  expect(await look()).toEqual(
    due(
      { code: 'output', args: { file: 'cylinders.csv' } },
      { code: 'output', args: { file: 'cylinders.csv/one.svg' } },
    ),
  )
})

test('an output changed byte for byte, or sealed by somebody else, does not stand', async () => {
  writeFileSync(join(output, 'cylinders.csv'), 'a,c\n')
  expect(await look()).toEqual(due({ code: 'output', args: { file: 'cylinders.csv' } }))
  writeFileSync(join(output, 'cylinders.csv'), 'a,b\n')
  expect(await look()).toMatchObject(CURRENT)
  expect(await look({ publicKey: shop.publicKey })).toEqual(
    due({ code: 'output', args: { file: 'manifest.json' } }),
  )
  const path = join(output, 'manifest.json')
  writeFileSync(path, readFileSync(path, 'utf8').replace('level; not', 'lean; now'))
  expect(await look()).toEqual(due({ code: 'output', args: { file: 'manifest.json' } }))
})
