import { expect, test } from 'vitest'
import { dampingRatio, logDecrement } from '../../src/maths/log-decrement.ts'
import { referenceJson, relativeGap } from './reference-data.ts'

// Textbook problem (6 kg, 5400 N/m, peaks in the ratio 3 : 2): delta 0.405465, zeta 0.064398.
test('peaks in the ratio 3 : 2', () => {
  const { delta } = logDecrement([3, 2])!
  expect(delta).toBeCloseTo(0.405465, 5)
  expect(dampingRatio(delta)).toBeCloseTo(0.064398, 5)
})

// Closed form: series R-L-C of 10 mH, 1 uF, 20 ohm: zeta 0.1, delta 0.631484.
test('a circuit of damping 0.1', () => {
  const delta = (2 * Math.PI * 0.1) / Math.sqrt(1 - 0.01)
  expect(delta).toBeCloseTo(0.631484, 5)
  const found = logDecrement(Array.from({ length: 5 }, (_, k) => 7 * Math.exp(-delta * k)))!
  expect(found.delta).toBeCloseTo(delta, 12)
  expect(dampingRatio(found.delta)).toBeCloseTo(0.1, 12)
})

test('closed-form ring-downs', () => {
  const file = referenceJson<{
    cases: { log_decrement: number; zeta: number; positive_peaks: { v: number }[] }[]
  }>('damped-ring.json')
  for (const { positive_peaks: peaks, log_decrement: expected, zeta } of file.cases) {
    const { delta } = logDecrement(peaks.map((p) => p.v))!
    expect(relativeGap(delta, expected)).toBeLessThan(1e-9)
    expect(relativeGap(dampingRatio(delta), zeta)).toBeLessThan(1e-9)
  }
})

test('one peak, or one below zero, has no decrement', () => {
  expect(logDecrement([1])).toBeUndefined()
  expect(logDecrement([1, -1])).toBeUndefined()
})
