import { expect, test } from 'vitest'
import { localLevel, windowAbout } from '../../src/metrics/local-level.ts'
import { UNKNOWN_SHARPNESS } from '../../src/metrics/sharpness.ts'
import { sparkLineOf, type SparkLine } from '../../src/metrics/spark-line.ts'
import { HEALTHY, waveOf } from './analytic-wave.ts'

test('windows stay between 4 and 92 %, and a lopsided one is read where an even bend does no harm', () => {
  expect(windowAbout(0.5).from).toBeCloseTo(0.43, 12)
  expect(windowAbout(0.5).to).toBeCloseTo(0.57, 12)
  expect(windowAbout(0.1).from).toBe(0.04)
  expect(windowAbout(0.1).to).toBeCloseTo(0.18, 12)
  const { from, to } = windowAbout(0.9)
  expect(to).toBeCloseTo(0.92, 12)
  expect((0.9 - (from + to) / 2) / (to - from)).toBeCloseTo(1 / Math.sqrt(12), 9)
})

// Closed forms: a straight line over a window W reads y = c x^2 / 2 too high by c W^2 / 24 in its centre, and a line
// that turns by k there by k W / 8. Half way between is taken off; the truth lies within the even spread left.
test.each([
  ['spread out', (s: number) => 1.6 + 2 * (s - 0.5) ** 2, 1.6],
  ['all at once', (s: number) => 1.6 + (s > 0.5 ? 1.6 * (s - 0.5) : 0), 1.6],
])('a bend at the very point, %s', (_, shape, truth) => {
  const line = sparkLineOf(waveOf({ ...HEALTHY, line: shape }), []) as SparkLine
  const changeOfSlope = 1.6 / (line.to - line.from)
  const level = localLevel(line, 0.5, { changeOfSlope, sharpness: UNKNOWN_SHARPNESS })!
  const uncorrected = localLevel(line, 0.5, { changeOfSlope: 0, sharpness: UNKNOWN_SHARPNESS })!
  const method = level.budget.find((b) => b.source === 'method')!.u
  expect(uncorrected.kv - level.kv).toBeCloseTo((1.6 * (0.14 ** 2 / 0.4 / 24 + 0.14 / 8)) / 2, 3)
  expect(Math.abs(level.kv - truth)).toBeLessThan(Math.sqrt(3) * method + 0.001)
  expect(Math.abs(level.kv - truth)).toBeLessThan(0.6 * 1.6 * (0.14 / 8))
})

test.each([
  [0, 'spread out'],
  [1, 'all at once'],
])('a bend whose sharpness is known, %d, is read without bias', (share, how) => {
  const shape =
    how === 'all at once'
      ? (s: number) => 1.6 + (s > 0.5 ? 1.6 * (s - 0.5) : 0)
      : (s: number) => 1.6 + 2 * (s - 0.5) ** 2
  const line = sparkLineOf(waveOf({ ...HEALTHY, line: shape }), []) as SparkLine
  const level = localLevel(line, 0.5, {
    changeOfSlope: 1.6 / (line.to - line.from),
    sharpness: { share, u: 0 },
  })!
  expect(Math.abs(level.kv - 1.6)).toBeLessThan(0.001)
})
