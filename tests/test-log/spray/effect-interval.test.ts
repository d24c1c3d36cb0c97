import { describe, expect, test } from 'vitest'
import { makeRandom } from '../../../src/maths/random.ts'
import {
  effectOf,
  effectPatterns,
  meanChange,
  withShapeShare,
} from '../../../src/test-log/spray/effect-interval.ts'
import { effectShapes } from '../../../src/test-log/spray/effect-shapes.ts'

const STEP_S = 0.2
const SIGMA = 6
/** 3.3 is what chance reaches in 5 % of windows of even noise, as the bench prints. */
const BOUND = 3.3
/** An idle that its past says nothing about: one lag with no weight. */
const EVEN = Float64Array.of(0)
const onsets = { spray: 0, from: 1, to: 10 }
const shapes = effectShapes(STEP_S)
const patterns = effectPatterns(shapes, EVEN)

/** A response by its closed form: rises to 1 with `riseS`, falls from the end of the drive with `fallS`; averaged over steps. */
function closedForm(it: { onsetS: number; lastsS: number; riseS: number; fallS: number; rpm: number }) {
  const top = 1 - Math.exp(-it.lastsS / it.riseS)
  const at = (tS: number) => {
    const s = tS - it.onsetS
    return s <= 0
      ? 0
      : s < it.lastsS
        ? 1 - Math.exp(-s / it.riseS)
        : top * Math.exp(-(s - it.lastsS) / it.fallS)
  }
  const mean = (row: number) =>
    Array.from({ length: 50 }, (_, k) => at((row + (k + 0.5) / 50) * STEP_S)).reduce((a, v) => a + v, 0) / 50
  return (row: number) => (it.rpm * mean(row)) / top
}

function look(truth: (row: number) => number, seed: number) {
  const random = makeRandom(seed)
  const rpm = Float64Array.from({ length: 60 }, (_, row) => truth(row) + SIGMA * random.gaussian())
  return effectOf({ surprises: { first: 0, rpm }, onsets, patterns, sigmaRpm: SIGMA }, BOUND)!
}

describe('size and onset of a response in even noise', () => {
  test.each([
    [60, 1.2],
    [-60, 3],
    [150, 4.4],
  ])('%d rpm for %d s: the interval holds the truth in about 95 %% of draws', (rpm, lastsS) => {
    const draws = Array.from({ length: 100 }, (_, k) => {
      const onsetS = 0.3 + (1.6 * k) / 99
      const effect = look(closedForm({ onsetS, lastsS, riseS: 0.3, fallS: 0.6, rpm }), 100 + k)
      const change = withShapeShare(effect.change)
      const lateS = { low: (effect.onset.low - 1) * STEP_S, high: (effect.onset.high + 1) * STEP_S }
      return {
        size: change.low <= rpm && rpm <= change.high,
        late: lateS.low <= onsetS && onsetS <= lateS.high,
      }
    })
    // binomial, 100 draws at 95 %: fewer than 88 have a chance below 0.5 %
    expect(draws.filter((d) => d.size).length).toBeGreaterThanOrEqual(88)
    expect(draws.filter((d) => d.late).length).toBeGreaterThanOrEqual(88)
  })
  test('nothing there: the interval holds 0 in about 95 % of draws', () => {
    const held = Array.from({ length: 100 }, (_, k) => look(() => 0, 900 + k).change).filter(
      (c) => c.low <= 0 && c.high >= 0,
    )
    expect(held.length).toBeGreaterThanOrEqual(88)
  })
  test('no usable row: nothing to say', () => {
    expect(
      effectOf(
        { surprises: { first: 0, rpm: new Float64Array(60).fill(NaN) }, onsets, patterns, sigmaRpm: SIGMA },
        BOUND,
      ),
    ).toBeUndefined()
  })
})

test('every shape reaches 1 at its highest instant, so never above 1 in a step', () => {
  for (const { height } of shapes) {
    expect(Math.max(...height)).toBeLessThanOrEqual(1)
    expect(Math.max(...height)).toBeGreaterThan(0.7)
  }
})

test('mean of repeats: inverse squares of the widths as weights (by hand: 10 +- 2 and 20 +- 4 -> 12 +- 1.789)', () => {
  const mean = meanChange([
    { value: 10, low: 8, high: 12, unit: 'rpm' },
    { value: 20, low: 16, high: 24, unit: 'rpm' },
  ])
  expect(mean.value).toBeCloseTo(12, 9)
  expect(mean.high - mean.value).toBeCloseTo(1.788854, 6)
})

test('the share for the shape adds to the noise as a root of squares (by hand: 100, noise 5, 12 % -> 13)', () => {
  const whole = withShapeShare({ value: 100, low: 95, high: 105, unit: 'rpm' })
  expect([whole.low, whole.high].map((v) => Number(v.toFixed(9)))).toEqual([87, 113])
})
