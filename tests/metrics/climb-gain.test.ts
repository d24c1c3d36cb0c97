import { expect, test } from 'vitest'
import { climbGain } from '../../src/metrics/climb-gain.ts'

// Gains of a climb that approaches 20 kV: a tenth of what is missing, so 2 - 0.1 v in closed form.
const steps = (levels: readonly number[]) => levels.map((fromKv) => ({ fromKv, gainKv: 2 - 0.1 * fromKv }))

test('the gain against the level, over the upper part of the climb', () => {
  const gain = climbGain(steps(Array.from({ length: 40 }, (_, i) => 0.25 * i)))!
  expect(gain.slopeSeen).toBe(true)
  expect(gain.slope).toBeCloseTo(-0.1, 9)
  expect(gain.gainKv).toBeCloseTo(2 - 0.1 * gain.middleKv, 9)
  expect(gain.toKv).toBe(9.75)
  expect(gain.gainU).toBeCloseTo(0, 9)
})

test('steps that lie low on the climb only: a level gain', () => {
  const low = Array.from({ length: 12 }, (_, i) => ({ fromKv: 0.5 + 0.05 * i, gainKv: 6 }))
  expect(climbGain(low)).toMatchObject({ slopeSeen: false, slope: 0, gainKv: 6 })
})

test('too few steps', () => expect(climbGain(steps([1, 2, 3, 4, 5, 6, 7]))).toBeUndefined())
