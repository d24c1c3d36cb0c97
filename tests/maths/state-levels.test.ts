import { expect, test } from 'vitest'
import { nextCrossing } from '../../src/maths/crossing.ts'
import { stateLevels } from '../../src/maths/state-levels.ts'

/** A trapezoid from 0.1 V to 5.1 V by its breakpoints, sampled at 1 MHz, 4000 samples. */
const BREAKS = [
  [0, 0.1],
  [0.001, 0.1],
  [0.00102, 5.1],
  [0.00249, 5.1],
  [0.00253, 0.1],
  [0.004, 0.1],
] as const
const trapezoid = Float64Array.from({ length: 4000 }, (_, i) => {
  const t = i * 1e-6
  const k = BREAKS.findIndex(([at]) => at > t)
  const [t0, v0] = BREAKS[k - 1]!
  const [t1, v1] = BREAKS[k]!
  return v0 + ((v1 - v0) * (t - t0)) / (t1 - t0)
})

// Closed-form trapezoid; terms of IEEE Std 181-2011. Histogram mode of 100 bins: 0.125 and 5.075.
test('state levels of the trapezoid', () => {
  const { low, high } = stateLevels(trapezoid)!
  expect(low).toBeCloseTo(0.125, 9)
  expect(high).toBeCloseTo(5.075, 9)
})

test('pulse between its states: 50 % instants, duration, 10-90 %', () => {
  const crossings = (level: number) => {
    const up = nextCrossing(trapezoid, level)!
    const down = nextCrossing(trapezoid, level, Math.ceil(up.index) + 1)!
    expect([up.rising, down.rising]).toEqual([true, false])
    return [up.index * 1e-6, down.index * 1e-6] as const
  }
  const [rise, fall] = crossings(2.6)
  expect(Math.abs(rise - 0.00101)).toBeLessThan(1e-9)
  expect(Math.abs(fall - 0.00251)).toBeLessThan(1e-9)
  expect(Math.abs(fall - rise - 0.0015)).toBeLessThan(1e-9)
  expect(Math.abs(crossings(4.6)[0] - crossings(0.6)[0] - 16e-6)).toBeLessThan(1e-9)
  expect(Math.abs(crossings(0.6)[1] - crossings(4.6)[1] - 32e-6)).toBeLessThan(1e-9)
})

test('a constant signal has no two states', () => {
  expect(stateLevels([1, 1, 1])).toBeUndefined()
  expect(stateLevels([])).toBeUndefined()
})
