import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Papa from 'papaparse'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { runFleet } from '../../src/fleet-run/run-fleet.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { checkPdfSeal } from '../../src/seal/seal-pdf.ts'
import { breaches } from '../support/conformance/conformance.ts'
import { allText, openPdf } from '../support/read-pdf.ts'
import { shop, stranger } from '../seal/keys.ts'
import { inventFleet, recordOf, writeOutput, type InventedJob } from '../fleet/fleet-jobs.ts'

let root: string
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'burnline-fleet-'))
})
afterEach(() => rmSync(root, { recursive: true, force: true }))

const texts = loadTexts('en')
const roll = (paths: readonly string[], name = 'fleet') =>
  runFleet(paths, { out: join(root, name), page: 'A4', version: '0.1.0', texts })
const bytes = (name: string) =>
  Object.fromEntries(
    readdirSync(join(root, name))
      .sort()
      .map((file) => [file, readFileSync(join(root, name, file)).toString('base64')]),
  )
const csv = (name = 'fleet') =>
  Papa.parse<Record<string, string>>(readFileSync(join(root, name, 'fleet.csv'), 'utf8'), {
    header: true,
    skipEmptyLines: true,
  }).data
const json = () =>
  JSON.parse(readFileSync(join(root, 'fleet', 'fleet.json'), 'utf8')) as Record<string, never> & {
    vehicles: {
      vehicle: string
      jobs: number
      repeat_faults: number
      history: { work_order: string; repeat_of: string | null }[]
    }[]
  }

const LEAN: InventedJob[] = [
  {
    workOrder: 'A-1',
    date: '2024-03-01',
    vin: 'VIN0000000000001',
    unit: '7',
    customer: 'Ex',
    odd: { 3: 'lean' },
    cause: 'leak-runner-joint',
    repair: 'repair confirmed',
    work: ['x'],
    riseAfter: 2,
  },
  {
    workOrder: 'A-3',
    date: '2025-06-01',
    unit: '7',
    customer: 'Ex',
    odd: { 3: 'lean' },
    cause: 'leak-runner-joint',
    repair: 'not checked',
    work: ['x'],
  },
  {
    workOrder: 'A-2',
    date: '2024-09-01',
    vin: 'VIN0000000000001',
    odd: { 1: 'lean' },
    cause: 'leak-runner-joint',
    settled: false,
  },
  { workOrder: 'B-1', date: '2025-01-15', vin: 'VIN0000000000002', borderline: [2] },
  { workOrder: 'C-1', date: '2025-01-20' },
]

test('who was right about what persons overruled is counted', async () => {
  const odd = { odd: { 3: 'lean' }, overruled: 3 }
  const jobs: InventedJob[] = [
    { workOrder: 'R-1', date: '2024-03-01', vin: 'VIN0000000000001', ...odd },
    { workOrder: 'R-2', date: '2024-03-09', vin: 'VIN0000000000001' },
    { workOrder: 'R-3', date: '2024-03-01', vin: 'VIN0000000000002', ...odd },
    { workOrder: 'R-4', date: '2024-03-09', vin: 'VIN0000000000002', odd: { 3: 'lean' } },
    { workOrder: 'R-5', date: '2024-03-01', ...odd },
  ]
  await roll(jobs.map((job) => writeOutput(root, job)))
  const rows = csv().map((row) => [row.overruled, row.overruled_end, row.overruled_settled_by].join(', '))
  expect(rows).toEqual([
    '3 lean > level, reviewer, R-2',
    ', , ',
    '3 lean > level, report, R-4',
    ', , ',
    '3 lean > level, open, ',
  ])
  expect(json()).toMatchObject({ overruled: { reviewer: 1, report: 1, neither: 0, open: 1 } })
  const words = await allText(await openPdf(readFileSync(join(root, 'fleet', 'fleet.pdf'))))
  for (const seen of ['Overruled findings', 'the person was right', 'by R-2', 'R. Example'])
    expect(words).toContain(seen)
})

describe('a fleet of five jobs, known beforehand', () => {
  test('rows, vehicles, repeat faults, causes and repairs', async () => {
    const folders = LEAN.map((job) => writeOutput(root, job))
    const failed = join(root, 'run.ndjson')
    writeFileSync(
      failed,
      `${JSON.stringify({ folder: 'inputs/bad', state: 'invalid', problems: [{ code: 'missing-key', severity: 'refuse' }] })}\n${JSON.stringify({ folder: 'x', state: 'reported', work_order: 'A-1' })}\n${JSON.stringify({ total: { jobs: 2 } })}\n`,
    )
    const tally = await roll([...folders, failed])
    expect([tally.jobs, tally.states.get('reported'), tally.states.get('invalid')]).toEqual([6, 5, 1])
    const rows = new Map(csv().map((row) => [row.work_order!, row]))
    expect([...rows.keys()]).toEqual(['A-1', 'A-2', 'A-3', 'B-1', 'C-1', 'bad'])
    expect(rows.get('bad')).toMatchObject({
      state: 'invalid',
      reason: 'missing-key',
      late_rise_pct: '',
      repair: '',
      tests: '',
    })
    // A-3 names no VIN: unit 7 of this customer bore one VIN only.
    expect(['A-1', 'A-2', 'A-3'].map((order) => rows.get(order)!.vehicle)).toEqual(
      Array(3).fill('VIN VIN0000000000001'),
    )
    expect(rows.get('A-1')).toMatchObject({
      repeat_of: '',
      late_rise_pct: '31',
      late_rise_cylinder: '3',
      late_rise_pct_after: '2',
      verdicts: '3 lean',
    })
    expect(rows.get('A-2')).toMatchObject({ repeat_of: 'A-1', repeat_kind: 'same kind', cause_settled: 'no' })
    expect(rows.get('A-3')).toMatchObject({ repeat_of: 'A-1', repeat_kind: 'same cylinder' })
    expect(json()).toMatchObject({
      jobs: 6,
      outcomes: { fault: 3, unsure: 1, 'in order': 1, 'no record': 1 },
      causes: [{ id: 'leak-runner-joint', jobs: 2 }],
      causes_unsettled: 1,
      repairs: { 'repair confirmed': 1, 'not checked': 2 },
      work_not_checked: 1,
      repeat_faults: { 'same cylinder': 1, 'same kind': 1, after_a_confirmed_repair: 2 },
      quality: { refused_for: { 'missing-key': 1 }, without_vehicle: 1 },
    })
    expect(json().vehicles.map((v) => [v.vehicle, v.history.map((h) => h.work_order)])).toEqual([
      ['VIN VIN0000000000001', ['A-1', 'A-2', 'A-3']],
      ['VIN VIN0000000000002', ['B-1']],
    ])
    const words = await allText(await openPdf(readFileSync(join(root, 'fleet', 'fleet.pdf'))))
    for (const seen of ['VIN VIN0000000000001', 'Repeat faults', 'A-3', 'Quality of the data', 'missing-key'])
      expect(words).toContain(seen)
    expect(
      checkPdfSeal(readFileSync(join(root, 'fleet', 'fleet.pdf')), 'fleet.pdf').map((f) => f.code),
    ).toEqual(['unsigned'])
  })

  test('a folder that failed has one row however often it was tried, and none once another call reported it', async () => {
    const line = (folder: string, state: string, ...codes: string[]) =>
      `${JSON.stringify({ folder, state, problems: codes.map((code) => ({ code })) })}\n`
    const files = [
      line('in/mended', 'invalid', 'missing-key') +
        line('in/twice', 'skipped') +
        line('in/other/twice', 'invalid', 'no-event'),
      line('in/twice', 'invalid', 'unknown-key') +
        line('in/mended', 'reported') +
        line('in/twice', 'skipped'),
    ].map((text, i) => {
      writeFileSync(join(root, `${i}.ndjson`), text)
      return join(root, `${i}.ndjson`)
    })
    await roll([writeOutput(root, { workOrder: 'A-1', date: '2024-01-01' }), ...files])
    expect(csv().map((row) => [row.work_order, row.state, row.reason])).toEqual([
      ['A-1', 'reported', ''],
      ['twice', 'invalid', 'no-event'],
      ['twice', 'invalid', 'unknown-key'],
    ])
    const bytes = readFileSync(join(root, 'fleet', 'fleet.csv'))
    await roll([...files.reverse(), join(root, 'A-1')])
    expect(readFileSync(join(root, 'fleet', 'fleet.csv'))).toEqual(bytes)
  })

  test('two vehicles of one unit number: a job without a VIN is counted to neither', async () => {
    const jobs: InventedJob[] = [
      { workOrder: '1', date: '2024-01-01', vin: 'V1', unit: '7' },
      { workOrder: '2', date: '2024-02-01', vin: 'V2', unit: '7' },
      { workOrder: '3', date: '2024-03-01', unit: '7' },
    ]
    await roll(jobs.map((job) => writeOutput(root, job)))
    expect(csv().map((row) => row.vehicle)).toEqual(['VIN V1', 'VIN V2', 'unit 7'])
  })
})

test.each([1, 5, 40])(
  'the printable report of %i vehicles keeps the rules of PDF/A-3a and PDF/UA-1',
  async (vehicles) => {
    const lines = join(root, 'records.ndjson')
    writeFileSync(
      lines,
      inventFleet(vehicles, 3 * vehicles)
        .map((job) => `${JSON.stringify(recordOf(job))}\n`)
        .join(''),
    )
    await roll([lines])
    expect(breaches(readFileSync(join(root, 'fleet', 'fleet.pdf')))).toEqual([])
  },
)

test('the same bytes whatever the order, the split, and whether folders or records are given', async () => {
  // A record alone shows no signature, so a fleet of records counts none.
  const jobs = inventFleet(7, 25).map((job) => ({ ...job, signed: false }))
  const folders = jobs.map((job) => writeOutput(join(root, 'outputs'), job))
  await roll(folders, 'one')
  await roll(folders.toReversed(), 'two')
  await roll([join(root, 'outputs')], 'three')
  const lines = join(root, 'records.ndjson')
  writeFileSync(
    lines,
    jobs
      .toReversed()
      .map((job) => `${JSON.stringify(recordOf(job))}\n`)
      .join(''),
  )
  await roll([lines], 'four')
  for (const other of ['two', 'three', 'four']) expect(bytes(other)).toEqual(bytes('one'))
})

test('one work order twice is an error that names both places, and nothing is written', async () => {
  const [first, second] = ['a', 'b'].map((place) => writeOutput(join(root, place), LEAN[0]!))
  for (const paths of [
    [first!, second!],
    [second!, first!],
  ]) {
    await expect(roll(paths)).rejects.toMatchObject({
      problems: [{ code: 'duplicate-work-order', file: second, args: { workOrder: 'A-1', other: first } }],
    })
  }
  expect(existsSync(join(root, 'fleet'))).toBe(false)
  expect(readdirSync(root)).toEqual(['a', 'b'])
})

test('a record changed after it was made gives a row without figures; one that is gone, too', async () => {
  const [changed, gone, fine] = LEAN.slice(0, 3).map((job) => writeOutput(root, job))
  writeFileSync(
    join(changed!, 'result.json'),
    readFileSync(join(changed!, 'result.json'), 'utf8').replace('"lean"', '"level"'),
  )
  rmSync(join(gone!, 'result.json'))
  await roll([changed!, gone!, fine!])
  expect(csv().map((row) => [row.work_order, row.state, row.late_rise_pct])).toEqual([
    ['A-1', 'altered', ''],
    ['A-2', 'reported', '31'],
    ['A-3', 'unreadable', ''],
  ])
})

test('a job counts as signed only where its manifest is, by the key its record names', async () => {
  const [signed, stripped, unsigned, changed] = [
    { signed: true },
    { signed: true, stripped: true },
    {},
    { signed: true },
  ].map((job, i) => writeOutput(root, { ...LEAN[0]!, ...job, workOrder: `S-${i}` }))
  const path = join(changed!, 'manifest.json')
  writeFileSync(path, readFileSync(path, 'utf8').replace('"verdict": ""', '"verdict": "level"'))
  await roll([signed!, stripped!, unsigned!, changed!])
  expect(csv().map((row) => [row.work_order, row.state, row.signed])).toEqual([
    ['S-0', 'reported', 'yes'],
    ['S-1', 'reported', 'no'],
    ['S-2', 'reported', 'no'],
    ['S-3', 'altered', ''],
  ])
  // Under a key of another shop the same signature counts for nothing.
  const under = async ({ publicKey }: { publicKey: string }) =>
    (await runFleet([signed!], { out: join(root, 'under'), page: 'A4', version: '0.1.0', texts, publicKey }))
      .unsigned
  expect([await under(shop), await under(stranger)]).toEqual([0, 1])
})

test('an earlier fleet is replaced whole; anything else in the way is refused', async () => {
  const folder = writeOutput(root, LEAN[0]!)
  await roll([folder])
  await roll([folder])
  expect(readdirSync(join(root, 'fleet')).sort()).toEqual(['fleet.csv', 'fleet.json', 'fleet.pdf'])
  mkdirSync(join(root, 'other'))
  writeFileSync(join(root, 'other', 'mine.txt'), 'x')
  await expect(roll([folder], 'other')).rejects.toMatchObject({ problems: [{ code: 'output-exists' }] })
})

test('what lies among outputs and is none is passed over; an output without its manifest has its row', async () => {
  const folder = writeOutput(join(root, 'outputs'), LEAN[0]!)
  const bare = writeOutput(join(root, 'outputs'), LEAN[1]!)
  rmSync(join(bare, 'manifest.json'))
  writeFileSync(join(root, 'outputs', 'notes.txt'), 'x')
  mkdirSync(join(root, 'outputs', '.burnline-cache'))
  await roll([join(root, 'outputs')])
  expect(csv().map((row) => [row.work_order, row.state])).toEqual([
    ['A-1', 'reported'],
    ['A-3', 'unreadable'],
  ])
  expect(existsSync(folder)).toBe(true)
})

test('a line that is neither is named with its place', async () => {
  writeFileSync(join(root, 'x.ndjson'), '{"total":{}}\nno json\n')
  await expect(roll([join(root, 'x.ndjson')])).rejects.toMatchObject({
    problems: [{ code: 'wrong-value', line: 2 }],
  })
})
