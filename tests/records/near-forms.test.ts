import { expect, test } from 'vitest'
import { nearForms } from '../../src/records/redact/near-forms.ts'
import type { RedactableField } from '../../src/records/redact/fields.ts'
import { redactResult } from '../../src/records/redact/redact-result.ts'
import type { Result } from '../../src/records/result.ts'
import { sampleJob } from '../support/sample-result.ts'

const { result } = sampleJob({ cylinders: 4, bare: true })
/** A job of an invented customer, with one complaint. */
const noted = (note: string): Result => ({
  ...result,
  job: {
    ...result.job,
    complaint: note,
    customer: { name: 'A. Millerton', reference: 'Straßer-7' },
    vehicle: { ...result.job.vehicle, vin: '1M8GDM9AXKP042788', plate: 'ABX 9917' },
  },
})
const found = (note: string, fields: RedactableField[]) => {
  const job = noted(note)
  return nearForms(job, redactResult(job, fields, { mask: '[x]' }), fields).map(
    (each) => `${each.field} ${each.where} ${each.found}`,
  )
}

test.each<[string, RedactableField, string]>([
  ['rang Ms Millerton today', 'customer', 'Millerton'],
  ['MILLERTONS car', 'customer', 'MILLERTONS'],
  ['order of STRASSER', 'customer', 'STRASSER'],
  ['vin 1M8GDM9AX KP042788', 'vin', '1M8GDM9AX KP042788'],
  ['abx9917 at the gate', 'plate', 'abx9917'],
  ['abx-9917 at the gate', 'plate', 'abx-9917'],
  ['vin 1M8GDM9AXKPO42788, read off the glass', 'vin', '1M8GDM9AXKPO42788'],
  ['vin IM8GDM9AXKP042788', 'vin', 'IM8GDM9AXKP042788'],
  ['vin lM8GDM9AXKP042788', 'vin', 'lM8GDM9AXKP042788'],
  ['rang M1llerton', 'customer', 'M1llerton'],
  ['rang Mi11erton', 'customer', 'Mi11erton'],
  ['rang M i l l e r t o n', 'customer', 'M i l l e r t o n'],
  ['rang Millert0n', 'customer', 'Millert0n'],
  ['for MILLER-TON', 'customer', 'MILLER-TON'],
  ['for Miller-\nton, again', 'customer', 'Miller-\nton'],
  ['for Miller\u00ad\u200bton, again', 'customer', 'Miller\u00ad\u200bton'],
  ['IMG_Millerton2.jpg', 'customer', 'Millerton2'],
  ['the Millertonwagen', 'customer', 'Millertonwagen'],
  ['rang Milerton', 'customer', 'Milerton'],
  ['rang Millertno', 'customer', 'Millertno'],
  ['vin 1M8GDM9AXKP042789', 'vin', '1M8GDM9AXKP042789'],
  ['vin 1M8-GDM9AX-KP0 42788', 'vin', '1M8-GDM9AX-KP0 42788'],
  ['abx 99l7 at the gate', 'plate', 'abx 99l7'],
  ['A8X 9917 at the gate', 'plate', 'A8X 9917'],
])('%s', (note, field, form) => expect(found(note, [field])).toEqual([`${field} job/complaint ${form}`]))

test('what is taken out whole, or is another word, is no near form', () => {
  expect(found('rang A. Millerton about ABX 9917', ['customer', 'plate'])).toEqual([])
  expect(found('mill and ton, ax 9917', ['customer', 'plate'])).toEqual([])
  // within other words, or across them, and a slip in a word that is no name
  expect(found('a millertonne, mil lertons, milerton', ['plate'])).toEqual([])
  expect(found('the small abx 99 17 5 of them', ['customer'])).toEqual([])
  const demo = noted('Demo idle is rough')
  demo.job.vehicle.plate = 'DEMO 1'
  expect(nearForms(demo, redactResult(demo, ['plate'], { mask: '[x]' }), ['plate'])).toEqual([])
})

test('they are found wherever people typed: log, names of files and columns, photos, calibration, vehicle, remarks', () => {
  const job = noted('x')
  const { captures, tests } = sampleJob({ cylinders: 4, tests: 1 }).result
  const capture = { ...captures[0]!, file: 'captures/millerton.csv' }
  const reading = { value: null, unit: null, expected_low: null, expected_high: null, finding: null }
  const everywhere: Result = {
    ...job,
    job: {
      ...job.job,
      cause: 'as Millerton said',
      vehicle: { ...job.job.vehicle, model: 'Millerton Special' },
      instrument: { ...job.job.instrument, calibration: { date: '2026-01-01', certificate: 'MILLERTON-7' } },
      engine: { ...job.job.engine, banks: { 'bank of Millerton': [1, 2] } },
    },
    captures: [{ ...capture, dialect: { ...capture.dialect, header: ['t', 'kV Millerton'] } }],
    tests: [{ ...tests[0]!, note: 'Ms Millerton', readings: [{ ...reading, reading: 'Millertons gauge' }] }],
    inputs: [{ file: 'photos/car of Millerton.jpg', sha256: '0', bytes: 1 }],
    problems: [
      { code: 'text-cut', severity: 'warn', file: 'job.yaml', line: 1, column: 1, text: 'cut: #Millerton' },
    ],
  }
  const places = nearForms(everywhere, redactResult(everywhere, ['customer'], { mask: '[x]' }), ['customer'])
  expect(places.map(({ where }) => where)).toEqual([
    'job/cause',
    'job/vehicle/model',
    'job/instrument/calibration/certificate',
    'job/engine/banks',
    'tests/0/note',
    'tests/0/readings/0/reading',
    'captures/0/file',
    'captures/0/header',
    'inputs/0/file',
    'problems/0/text',
  ])
  const near = places.map((each) => each.found)
  expect(JSON.stringify(redactResult(everywhere, ['customer'], { mask: '[x]', near }))).not.toMatch(
    /millerton/i,
  )
})

test('a near form is taken out with the others where it is asked for, everywhere', () => {
  const job = noted('rang Ms Millerton')
  const copy = redactResult(job, ['customer'], { mask: '[x]', near: ['Millerton'] })
  expect(JSON.stringify(copy)).not.toMatch(/millerton/i)
})

test('the copy of a reissue does not name the original by a digest that can be tried', () => {
  const revision = {
    number: 2,
    replaces: { number: 1, result_sha256: 'a'.repeat(64) },
    changes: [],
  } as unknown as Result['revision']
  const copy = redactResult({ ...noted('x'), revision }, ['plate'], { mask: '[x]' })
  expect(JSON.stringify(copy)).not.toContain('a'.repeat(64))
})

test('a word that the record is written in is refused, with the part that needs it', () => {
  const job = noted('x')
  expect(() =>
    redactResult({ ...job, job: { ...job.job, customer: { name: 'Warm' } } }, ['customer'], { mask: '[x]' }),
  ).toThrow(
    expect.objectContaining({
      problems: [
        expect.objectContaining({ code: 'word-of-the-record', args: { where: 'captures/0/engine' } }),
      ],
    }),
  )
})

test('a note made to keep the search busy takes no time', () => {
  const start = process.cpuUsage().user
  const job = noted(`x${'millerton'.repeat(20_000)} ${'M '.repeat(20_000)}`)
  expect(
    nearForms(job, redactResult(job, ['customer'], { mask: '[x]' }), ['customer']).length,
  ).toBeGreaterThan(0)
  expect((process.cpuUsage().user - start) / 1e6).toBeLessThan(4)
})
