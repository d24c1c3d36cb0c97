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
])('%s', (note, field, form) => expect(found(note, [field])).toEqual([`${field} job/complaint ${form}`]))

test('what is taken out whole, or is another word, is no near form', () => {
  expect(found('rang A. Millerton about ABX 9917', ['customer', 'plate'])).toEqual([])
  expect(found('mill and ton, ax 9917', ['customer', 'plate'])).toEqual([])
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
