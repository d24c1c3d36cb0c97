import { expect, test } from 'vitest'
import { combineUncertainty, evenWithin } from '../../src/maths/combine-uncertainty.ts'
import { mean, standardDeviation } from '../../src/maths/mean-sd.ts'
import { coverageFactor } from '../../src/maths/student-t.ts'

// JCGM 100:2008, example H.1: combined 31.67 nm (printed 32); expanded at 99 % 2.92 x 32 = 93 nm.
test('JCGM 100 H.1', () => {
  const u = combineUncertainty([1, 1, 1, 1], [25, 9.7, 2.9, 16.6])
  expect(Math.abs(u - 31.67)).toBeLessThan(0.01)
  expect(Math.abs(coverageFactor(0.99, 16) * u - 93)).toBeLessThan(0.6)
  // H.1.7: second-order terms of 11.7 and 1.7 nm make it 34.
  expect(Math.abs(Math.hypot(u, 11.7, 1.7) - 33.8)).toBeLessThan(0.1)
})

// JCGM 100:2008, example H.2: resistance and reactance from five simultaneous readings of V, I and phi.
const V = [5.007, 4.994, 5.005, 4.99, 4.999]
const MA = [19.663, 19.639, 19.64, 19.685, 19.678]
const PHI = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433]

test('JCGM 100 H.2: correlated inputs', () => {
  const series = [V, MA.map((i) => i / 1000), PHI]
  const [v, i, phi] = series.map((s) => mean(s)!) as [number, number, number]
  const u = series.map((s) => standardDeviation(s)! / Math.sqrt(5))
  expect(Math.abs(v - 4.999)).toBeLessThan(5e-5)
  expect(Math.abs(i - 0.019661)).toBeLessThan(5e-8)
  expect(Math.abs(phi - 1.04446)).toBeLessThan(5e-6)
  expect(u[0]).toBeCloseTo(0.0032, 4)
  expect(u[1]! * 1000).toBeCloseTo(0.0095, 4)
  expect(u[2]).toBeCloseTo(0.00075, 5)
  const r = (a: number, b: number) => correlation(series[a]!, series[b]!)
  expect(r(0, 1)).toBeCloseTo(-0.36, 2)
  expect(r(0, 2)).toBeCloseTo(0.86, 2)
  expect(r(1, 2)).toBeCloseTo(-0.65, 2)
  const z = v / i
  const check = (sensitivity: number[], value: number, [expected, uExpected]: [number, number]) => {
    expect(Math.abs(value - expected)).toBeLessThan(6e-4)
    expect(Math.abs(combineUncertainty(sensitivity, u, r) - uExpected)).toBeLessThan(6e-4)
  }
  const cos = Math.cos(phi),
    sin = Math.sin(phi)
  check([cos / i, (-z * cos) / i, -z * sin], z * cos, [127.732, 0.071])
  check([sin / i, (-z * sin) / i, z * cos], z * sin, [219.847, 0.295])
  check([1 / i, -z / i, 0], z, [254.26, 0.236])
  // Table H.5: leaving the correlation out is wrong and gives 0.195.
  expect(Math.abs(combineUncertainty([cos / i, (-z * cos) / i, -z * sin], u) - 0.195)).toBeLessThan(6e-4)
})

// JCGM 100:2008, 4.3.7.
test('even within +/- a', () => expect(evenWithin(3)).toBeCloseTo(Math.sqrt(3), 12))

function correlation(a: readonly number[], b: readonly number[]): number {
  const ma = mean(a)!,
    mb = mean(b)!
  const cross = a.reduce((t, v, k) => t + (v - ma) * (b[k]! - mb), 0)
  return cross / (a.length - 1) / standardDeviation(a)! / standardDeviation(b)!
}
