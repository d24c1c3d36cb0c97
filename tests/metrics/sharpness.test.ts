import { expect, test } from 'vitest'
import { makeRandom } from '../../src/maths/random.ts'
import { bendOf } from '../../src/metrics/levels.ts'
import { sharpnessOf, UNKNOWN_SHARPNESS } from '../../src/metrics/sharpness.ts'
import { sparkLineOf, type SparkLine } from '../../src/metrics/spark-line.ts'
import { HEALTHY, waveOf } from './analytic-wave.ts'

const bends = (shape: (s: number) => number, count: number) => {
  const random = makeRandom(21)
  return Array.from({ length: count }, () =>
    bendOf(sparkLineOf(waveOf({ ...HEALTHY, line: shape }, random), []) as SparkLine)!,
  )
}
const kinked = (s: number) => 1.6 + (s > 0.5 ? 1.6 * (s - 0.5) : 0)
const even = (s: number) => 1.6 + 2 * (s - 0.5) ** 2

test('all at once, spread out, and half of each', () => {
  expect(sharpnessOf(bends(kinked, 12)).share).toBeGreaterThan(0.85)
  expect(sharpnessOf(bends(even, 12)).share).toBeLessThan(0.15)
  const both = sharpnessOf(bends((s) => (kinked(s) + even(s)) / 2, 12))
  expect(Math.abs(both.share - 0.5)).toBeLessThan(0.15)
  expect(both.u).toBeLessThan(0.15)
})

test('a straight line, or too few lines, tell nothing', () => {
  expect(sharpnessOf(bends(kinked, 4))).toEqual(UNKNOWN_SHARPNESS)
  expect(sharpnessOf([])).toEqual(UNKNOWN_SHARPNESS)
  expect(sharpnessOf(bends((s) => 1.6 - 0.2 * s, 12)).u).toBeGreaterThan(0.2)
})
