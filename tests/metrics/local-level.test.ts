import { expect, test } from 'vitest'
import { localLevel, windowAbout } from '../../src/metrics/local-level.ts'
import { sparkLineOf, type SparkLine } from '../../src/metrics/spark-line.ts'
import { HEALTHY, waveOf } from './analytic-wave.ts'

test('windows are moved, not cut, to stay between 4 and 92 %', () => {
  expect(windowAbout(0.5, 0.14).from).toBeCloseTo(0.43, 12)
  expect(windowAbout(0.5, 0.14).to).toBeCloseTo(0.57, 12)
  expect(windowAbout(0.1, 0.14).from).toBe(0.04)
  expect(windowAbout(0.9, 0.14).to).toBeCloseTo(0.92, 12)
  expect(windowAbout(0.9, 0.14).from).toBeCloseTo(0.78, 12)
})

// Closed form: a straight line through evenly spread points of y = c x^2 / 2 misses it by c (d^2 - W^2/12) / 2 at a
// distance d from their centre.
test('the method part of the budget is what the bend costs', () => {
  const bent = { ...HEALTHY, line: (s: number) => 1.6 + 2 * (s - 0.5) ** 2 }
  const line = sparkLineOf(waveOf(bent), []) as SparkLine
  const samples = line.to - line.from
  const level = localLevel(line, 0.5, { curvature: 4 / samples ** 2, kink: 0 })!
  const method = level.budget.find((b) => b.source === 'method')!.u
  expect(method).toBeGreaterThan(0)
  expect(Math.abs(level.kv - 1.6 - method)).toBeLessThan(0.1 * method)
})

// Closed form: a line that turns by k in the middle of a window W is read k W / 8 too high there.
test('a sudden bend at the very point is within the doubt stated', () => {
  const kinked = { ...HEALTHY, line: (s: number) => 1.6 + (s > 0.5 ? 1.5 * (s - 0.5) : 0) }
  const line = sparkLineOf(waveOf(kinked), []) as SparkLine
  const level = localLevel(line, 0.5, { curvature: 0, kink: 1.5 / (line.to - line.from) })!
  const method = level.budget.find((b) => b.source === 'method')!.u
  expect(Math.abs(level.kv - 1.6 - (1.5 * 0.14) / 8)).toBeLessThan(0.003)
  expect(level.kv - 1.6).toBeLessThan(1.96 * method)
})
