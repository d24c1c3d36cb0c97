import { readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { jobJsonSchema, jobJsonSchemaText } from '../../src/job/json-schema.ts'
import { jobSchema } from '../../src/job/schema.ts'
import { EXAMPLE_JOB } from '../bench/fuzz/example-job.ts'

test('the file is what the schema gives (npm run schemas rewrites it)', () => {
  expect(readFileSync(new URL('../../templates/job.schema.json', import.meta.url), 'utf8')).toBe(
    jobJsonSchemaText(),
  )
})

// An independent validator, JSON Schema draft 2020-12, judges the same documents as the schema in the code.
describe('the JSON Schema by an outside validator', () => {
  const validate = new Ajv2020({ strict: true }).compile(jobJsonSchema())
  const variant = (from: string, to: string): unknown => {
    expect(EXAMPLE_JOB).toContain(from)
    return parse(EXAMPLE_JOB.replace(from, to))
  }

  test('takes the example', () => {
    expect(validate(parse(EXAMPLE_JOB)), JSON.stringify(validate.errors)).toBe(true)
  })

  test.each([
    ['unknown key', 'complaint:', 'complaints:'],
    ['unknown inner key', 'due:', 'dues:'],
    ['missing key', 'format: 1\n', ''],
    ['not in the list', 'fuel: E10', 'fuel: E15'],
    ['number for words', 'work_order: "24-0713"', 'work_order: 240713'],
    ['words for a number', 'cylinders: 6', 'cylinders: six'],
    ['no time axis', '{ sample_rate_hz: 500000 }', '{}'],
    ['two time axes', '{ sample_rate_hz: 500000 }', '{ sample_rate_hz: 500000, column: 1, unit: s }'],
    ['zero rate', 'sample_rate_hz: 500000', 'sample_rate_hz: 0'],
    ['odd cylinders', 'cylinders: all', 'cylinders: every'],
    ['three limits', 'limits: [-20, 20]', 'limits: [-20, 0, 20]'],
    ['date with slashes', 'opened: 2026-03-04', 'opened: 2026/03/04'],
  ])('refuses, as the code does: %s', (_, from, to) => {
    const data = variant(from, to)
    expect(validate(data)).toBe(false)
    expect(jobSchema.safeParse(data).success).toBe(false)
  })
})
