import { expect, test } from 'vitest'
import { hodgesLehmannLocation, hodgesLehmannShift } from '../../src/maths/hodges-lehmann.ts'
import { makeRandom } from '../../src/maths/random.ts'

// SAS/STAT User's Guide, NPAR1WAY, example 'Hodges-Lehmann Estimation': shift 0.35, asymptotic (Moses) 98 % limits
// 0.00 to 0.82.
test('SAS example', () => {
  const first = [1.94, 1.94, 2.92, 2.92, 2.92, 2.92, 3.27, 3.27, 3.27, 3.27, 3.7, 3.7, 3.74]
  const second = [3.27, 3.27, 3.27, 3.7, 3.7, 3.74]
  const { shift, low, high } = hodgesLehmannShift(first, second, 0.98)
  expect(shift).toBeCloseTo(0.35, 9)
  expect(low).toBeCloseTo(0, 9)
  expect(high).toBeCloseTo(0.82, 9)
})

// Hollander and Wolfe 1973, p. 69, permeability data (from memory; recomputed): 0.305.
test('permeability data', () => {
  const x = [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46]
  expect(hodgesLehmannShift([1.15, 0.88, 0.9, 0.74, 1.21], x).shift).toBeCloseTo(0.305, 9)
})

// Hollander and Wolfe 1999, pp. 51-55, Hamilton depression data: -0.46, 96 % limits -0.786 and -0.010.
test('Hamilton data', () => {
  const x = [-0.952, 0.147, -1.022, -0.43, -0.62, -0.59, -0.49, 0.08, -0.01]
  const { location, low, high } = hodgesLehmannLocation(x, 0.96)
  expect(location).toBeCloseTo(-0.46, 9)
  expect(low).toBeCloseTo(-0.786, 9)
  expect(high).toBeCloseTo(-0.01, 9)
})

test('the interval of a shift holds it in about 95 % of cases', () => {
  const random = makeRandom(21)
  const runs = 1500
  let held = 0
  for (let run = 0; run < runs; run++) {
    const a = Array.from({ length: 12 }, () => random.gaussian())
    const b = Array.from({ length: 15 }, () => random.gaussian() + 1)
    const { low, high } = hodgesLehmannShift(a, b)
    if (low <= 1 && high >= 1) held++
  }
  expect(Math.abs(held / runs - 0.95)).toBeLessThan(0.02)
})

test('empty samples are refused', () => {
  expect(() => hodgesLehmannShift([], [1])).toThrow(RangeError)
  expect(() => hodgesLehmannLocation([])).toThrow(RangeError)
})
