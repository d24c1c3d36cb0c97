import { expect, test } from 'vitest'
import type { Job } from '../../src/job/schema.ts'
import type { LogEntry } from '../../src/test-log/entry.ts'
import { checkReading } from '../../src/test-log/usual-readings.ts'

const job = { engine: { cylinders: 4 } } as Job
const vacuum = (value: number, unit: string) =>
  checkReading(
    {
      line: 2,
      at: '2026-03-04T09:00:00Z',
      step: 'vacuum',
      stage: 'before',
      reading: 'manifold',
      value,
      unit,
    } as LogEntry,
    job,
  ).map(({ code, severity }) => `${code} ${severity}`)

// Standard air pressure 101.325 kPa: ISO 2533; 29.92 inHg of 3.386 kPa: NIST SP 811 (2008), B.8.
test.each([
  [18, 'inHg', []],
  [29.9, 'inHg', ['unusual-value warn']],
  [30, 'inHg', ['wrong-cell refuse']],
  [50, 'inHg', ['wrong-cell refuse']],
  [-60, 'kPa', []],
  [-102, 'kPa', ['wrong-cell refuse']],
  [-1.1, 'bar', ['wrong-cell refuse']],
  [-20, 'psi', ['wrong-cell refuse']],
  [35, 'kPa', []],
  [160, 'kPa', ['unusual-value warn']],
])('a vacuum of %d %s', (value, unit, said) => {
  expect(vacuum(value, unit)).toEqual(said)
})
