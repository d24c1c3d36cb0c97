import { expect, test } from 'vitest'
import type { TestFinding } from '../../src/test-log/findings.ts'
import { compareReadings } from '../../src/verdicts/repair-readings.ts'
import { around } from './evidence.ts'

const trim = (stage: 'before' | 'after', condition: string, value: number): TestFinding => ({
  at: '2026-03-04T09:00',
  step: 'trim',
  stage,
  condition,
  lines: [2],
  readings: [],
  computed: { totalTrimBank1: around(value, 3), exactTrimBank1: around(value, 3) },
  finding: 'recorded',
  observed: false,
  says: [],
})

test('the change is after less before; half widths add as the root of their squares (JCGM 100:2008, 5.1.2)', () => {
  const [change, ...others] = compareReadings([trim('before', 'idle', 30), trim('after', 'idle', 2)], [])
  expect(others).toEqual([])
  expect(change!.change.value).toBe(-28)
  expect(change!.change.high - change!.change.value).toBeCloseTo(Math.sqrt(18), 12)
  expect(change!.change.value - change!.change.low).toBeCloseTo(Math.sqrt(18), 12)
})

test('only the same reading under the same condition is compared', () => {
  expect(compareReadings([trim('before', 'idle', 30), trim('after', '2500 rpm', 2)], [])).toEqual([])
})

test('the last reading of a stage counts', () => {
  expect(
    compareReadings(
      [trim('before', 'idle', 30), trim('before', 'idle', 20), trim('after', 'idle', 2)],
      [],
    )[0]!.change.value,
  ).toBe(-18)
})
