import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { askedJob } from '../../src/batch/asked-job.ts'
import { bearingOn, visitOf, type HistoryIndex } from '../../src/chain/history.ts'
import { marksOf, sameVehicle, type VehicleMarks } from '../../src/chain/vehicle-marks.ts'
import { historyIndex, holdOf } from '../../src/evidence/history-index.ts'
import { madeForHistory } from '../../src/evidence/made-for-call.ts'
import { sealedReport } from '../../src/evidence/sealed-report.ts'
import { verifyOutput } from '../../src/evidence/verify-output.ts'
import { writeWhole } from '../../src/files/write-whole.ts'
import { readingLimits } from '../../src/limits/reading-limits.ts'
import { resultSchema, type Result } from '../../src/records/result.ts'
import { readSeal, sealManifest } from '../../src/seal/seal-manifest.ts'
import { LANGUAGES, loadTexts } from '../../src/texts/load-texts.ts'
import { sayAgain } from '../../src/texts/say.ts'
import { shop, stranger } from '../seal/keys.ts'
import { PLAIN } from '../support/plain-options.ts'
import { allText, openPdf } from '../support/read-pdf.ts'

const texts = loadTexts('en')
const made = { program: 'test', templates: {}, options: {} }
const demo = fileURLToPath(new URL('../../inputs/third-cylinder-valve', import.meta.url))
let root: string
let out: string
beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'burnline-history-'))
  out = join(root, 'outputs')
  await reported('A-1', '2025-03-04')
  await reported('A-2', '2025-09-04')
  await reported('A-3', '2025-10-04')
})
afterAll(() => rmSync(root, { recursive: true, force: true }))

/** The demo job under another work order and day. */
function jobOf(workOrder: string, opened: string): string {
  const folder = join(root, workOrder)
  cpSync(demo, folder, { recursive: true })
  const path = join(folder, 'job.yaml')
  const yaml = readFileSync(path, 'utf8')
    .replace(/^work_order: .*$/m, `work_order: ${workOrder}`)
    .replace(/^opened: .*$/m, `opened: ${opened}`)
  writeFileSync(path, yaml)
  return folder
}

async function reported(workOrder: string, opened: string, history?: HistoryIndex) {
  const folder = jobOf(workOrder, opened)
  const report = await sealedReport(
    folder,
    { ...PLAIN, made, ...(history === undefined ? {} : { history }) },
    texts,
  )
  await writeWhole(join(out, workOrder), report.files)
  return { ...report, folder, output: join(out, workOrder) }
}

describe('a report with the history of its vehicle', () => {
  let it: Awaited<ReturnType<typeof reported>>
  let result: Result
  let index: HistoryIndex
  beforeAll(async () => {
    writeFileSync(join(out, 'A-2', 'events.csv'), 'changed\n')
    index = historyIndex(out)!
    it = await reported('B-1', '2026-03-04', index)
    result = it.result
  })

  test('takes what holds, and names what does not', () => {
    expect(() => resultSchema.parse(result)).not.toThrow()
    const history = result.history!
    expect(history.visits.map((v) => `${v.work_order} ${v.identity}`)).toEqual(['A-1 plate', 'A-3 plate'])
    expect(history.left_out).toEqual([{ output: 'A-2', why: 'altered' }])
    // the odd cylinder was never healthy, so that nothing of it is compared
    const asked = history.changes.filter((c) => c.figure === 'late_rise_pct')
    expect(asked.map((c) => [c.cylinder, c.visits, c.change, c.changed])).toEqual(
      [1, 2, 4].map((cylinder) => [cylinder, 2, 0, false]),
    )
    expect(history.says.map(({ key }) => key)).toEqual([
      'history.unchanged',
      'history.weak',
      'history.left-out',
    ])
  })

  test('under a key only what the same key signed holds: anybody can write an output that nobody signed', async () => {
    const folder = join(out, 'A-1')
    expect(await holdOf({ folder }, undefined)).toBe('holds')
    expect(await holdOf({ folder }, shop.publicKey)).toBe('not signed')
    expect(await holdOf({ folder, sha256: '0'.repeat(64) }, undefined)).toBe('altered')
    const manifest = join(folder, 'manifest.json')
    const plain = readFileSync(manifest, 'utf8')
    try {
      // A stranger's seal; the record does not name its key, so the output as a whole does not hold.
      const { body } = readSeal(plain)!
      writeFileSync(manifest, sealManifest(body, { signer: stranger, record: '0'.repeat(64) }))
      expect(await holdOf({ folder }, shop.publicKey)).toBe('altered')
    } finally {
      writeFileSync(manifest, plain)
    }
  })

  test('a report that was changed is not replaced: what a reissue says of it would be forged', async () => {
    await expect(
      sealedReport(join(root, 'A-2'), { ...PLAIN, made, replaces: out }, texts),
    ).rejects.toMatchObject({ problems: [{ code: 'replaced-report', args: { why: 'altered' } }] })
  })

  test('its digests stand in the manifest, and the output holds', async () => {
    const manifest = JSON.parse(readFileSync(join(it.output, 'manifest.json'), 'utf8')) as {
      handed_in: { what: string; file: string; sha256: string }[]
      made_with: { options: Record<string, string> }
    }
    expect(manifest.handed_in.map(({ what, file }) => `${what} ${file}`)).toEqual([
      'history A-1/manifest.json',
      'history A-3/manifest.json',
    ])
    expect(manifest.handed_in[0]!.sha256).toBe(result.history!.visits[0]!.manifest_sha256)
    const { findings } = await verifyOutput(it.output, {})
    expect(findings.filter(({ severity }) => severity === 'broken')).toEqual([])
    // what a later call asks by job.yaml alone is what the report was made with
    const asked = askedJob(it.folder, readingLimits())!
    expect(madeForHistory(made, index, asked).options['history']).toBe(manifest.made_with.options['history'])
  })

  test('its own output and later ones are no history of it', () => {
    const again = historyIndex(out)!
    const asked = askedJob(it.folder, readingLimits())!
    const names = (workOrder: string, opened: string) =>
      bearingOn(again, { ...asked, workOrder, opened }).own.map(({ entry }) => entry.name)
    expect(names('B-1', '2026-03-04')).toEqual(['A-1', 'A-2', 'A-3'])
    expect(names('A-2', '2025-09-04')).toEqual(['A-1'])
    expect(names('C-1', '2026-03-04')).toContain('B-1')
  })

  test('the conclusion does not use it; the report shows it', async () => {
    const plain = await sealedReport(it.folder, { ...PLAIN, made }, texts)
    expect(result.conclusion).toEqual(plain.result.conclusion)
    expect(plain.result.history).toBeUndefined()
    const words = (await allText(await openPdf(Buffer.from(it.files.get('report.pdf')!)))).replaceAll(
      /\s+/g,
      ' ',
    )
    for (const seen of [
      "Against this engine's own earlier figures",
      'A-2 (changed since it was made)',
      'Harris and Yasaka',
    ])
      expect(words).toContain(seen)
    expect(it.files.has('charts/history-late-rise-pct.svg')).toBe(true)
  })

  test.each(LANGUAGES)('each sentence can be said again in %s', (language) => {
    for (const says of result.history!.says)
      expect(sayAgain(loadTexts(language), says).length).toBeGreaterThan(20)
  })
})

test('a vehicle is told by the strongest mark both bear; two VINs are two vehicles', () => {
  const marks = (more: Partial<VehicleMarks>): VehicleMarks => ({
    vin: '',
    unit: '',
    customer: '',
    plate: '',
    engine: '',
    ...more,
  })
  const same = (a: Partial<VehicleMarks>, b: Partial<VehicleMarks>) => sameVehicle(marks(a), marks(b))
  expect(same({ vin: 'A', plate: 'P' }, { vin: 'A' })).toBe('vin')
  expect(same({ vin: 'A', unit: '7', plate: 'P' }, { vin: 'B', unit: '7', plate: 'P' })).toBeUndefined()
  expect(same({ vin: 'A', unit: '7', customer: 'x' }, { unit: '7', customer: 'x' })).toBe('unit')
  expect(same({ unit: '7', customer: 'x' }, { unit: '7', customer: 'y' })).toBeUndefined()
  expect(same({ plate: 'P' }, { vin: 'A', plate: 'P' })).toBe('plate')
  expect(same({}, {})).toBeUndefined()
  const engine = { cylinders: 4, firing_order: [1, 3, 4, 2] }
  expect(marksOf({ vehicle: { plate: 'demo-35 ' }, engine }).plate).toBe('DEMO35')
})

test('of a record only warm idles count, and a cylinder with anything apart is no reference', () => {
  const row = {
    stage: 'before' as const,
    cylinder: 1,
    verdict: 'level',
    figures: { burn_ms: { value: 1, low: 1, high: 1 } },
  }
  const visit = visitOf({
    format: 1,
    job: {
      work_order: 'x',
      opened: '2026-01-01',
      customer: null,
      vehicle: { vin: null, unit_number: null, odometer: null },
      engine: { cylinders: 4, firing_order: [1, 3, 4, 2] },
      instrument: { description: null },
    },
    captures: [
      { file: 'warm', condition: 'idle', engine: 'warm' },
      { file: 'cold', condition: 'idle', engine: 'cold' },
      { file: 'fast', condition: '2500 rpm', engine: 'warm' },
    ],
    cylinders: [
      { ...row, capture: 'warm' },
      { ...row, capture: 'warm', cylinder: 2, apart: [{}] },
      { ...row, capture: 'warm', cylinder: 3, verdict: 'lean' },
      { ...row, capture: 'cold', cylinder: 4 },
      { ...row, capture: 'fast', cylinder: 4 },
    ],
  })
  expect(visit.cylinders.map(({ cylinder, healthy }) => [cylinder, healthy])).toEqual([
    [1, true],
    [2, false],
    [3, false],
  ])
})
