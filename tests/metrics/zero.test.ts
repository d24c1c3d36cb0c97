import { expect, test } from 'vitest'
import { makeRandom } from '../../src/maths/random.ts'
import { sparkLevels } from '../../src/metrics/levels.ts'
import { sparkLineOf, type SparkLine } from '../../src/metrics/spark-line.ts'
import { aboveZero, zeroStepsU, zeroUncertainty } from '../../src/metrics/zero.ts'
import { HEALTHY, present, waveOf } from './analytic-wave.ts'

test('doubt about the zero is added to a level, not to a difference', () => {
  const { mid } = sparkLevels(sparkLineOf(waveOf(HEALTHY, makeRandom(7)), []) as SparkLine)
  expect(present(aboveZero(mid, { movesU: 0.04, stepsU: 0.03 })).u).toBeCloseTo(
    Math.hypot(present(mid).u, 0.05),
    12,
  )
})

// Worked by hand: changes 1, -1, 1 have a mean square of 1, half of it 0.5.
test('doubt about the zero from successive changes', () => {
  expect(zeroUncertainty([0, 1, 0, 1])).toBeCloseTo(Math.sqrt(0.5), 12)
  expect(zeroUncertainty([3])).toBe(0)
})

// Truth: a level anywhere within a step, noise of a known size, rounded to steps and averaged. The noise is seen where
// the samples cross many steps, as on a spark line.
test.each([0, 0.05, 0.1, 0.2, 0.3, 0.5])(
  'what steps leave open in a level at rest, noise of %s steps',
  (noise) => {
    const random = makeRandom(11)
    const samples = 4000
    const rms = (list: readonly number[]): number =>
      Math.sqrt(list.reduce((a, b) => a + b * b, 0) / list.length)
    const ramp = Array.from(
      { length: samples },
      (_, i) => Math.round((20 * i) / samples + noise * random.gaussian()) - (20 * i) / samples,
    )
    const u = zeroStepsU({ noiseKv: rms(ramp), quantumKv: 1, movesU: 0 })
    const errors = Array.from({ length: 300 }, () => {
      const level = random.uniform()
      let sum = 0
      for (let i = 0; i < samples; i++) sum += Math.round(level + noise * random.gaussian())
      return sum / samples - level
    })
    // What noise and rounding leave after averaging by themselves is not the steps' doing.
    const own = Math.hypot(noise, 1 / Math.sqrt(12)) / Math.sqrt(samples)
    expect(
      Math.abs(u / Math.sqrt(Math.max(1e-9, rms(errors) ** 2 - own ** 2)) - 1) < 0.15 ||
        Math.max(u, rms(errors)) < 2 * own,
    ).toBe(true)
  },
)
