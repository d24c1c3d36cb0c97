import { describe, expect, test } from 'vitest'
import { makeRandom, type Random } from '../../src/maths/random.ts'
import { medianInterval } from '../../src/maths/median-interval.ts'
import { longRuns, type TimedValues } from '../../src/metrics/long-run.ts'

/** Six cylinders of an engine whose long-run median is 0: normal scatter of 4 points, first-order correlated. */
function engine(random: Random, { correlation, n }: { correlation: number; n: number }): TimedValues[] {
  return Array.from({ length: 6 }, () => {
    let x = random.gaussian()
    const values = Array.from({ length: n }, (_, i) => {
      if (i > 0) x = correlation * x + Math.sqrt(1 - correlation ** 2) * random.gaussian()
      return 4 * x
    })
    return { atS: values.map((_, i) => 0.15 * i), values }
  })
}

/** How often intervals hold the long-run median, with and without the stretch, and how wide they are. */
function trial(about: { correlation: number; n: number }, engines = 150) {
  const random = makeRandom(11)
  const counts = { held: 0, plain: 0, of: 0, width: 0, plainWidth: 0, lean: 0, level: 0, short: 0 }
  for (let k = 0; k < engines; k++) {
    const cylinders = engine(random, about)
    longRuns(cylinders, undefined).forEach(({ stretch, cyclesNeeded }, i) => {
      const { value, low, high } = medianInterval(cylinders[i]!.values)!
      const [from, to] = [value - stretch * (value - low), value + stretch * (high - value)]
      counts.of += 1
      if (cyclesNeeded !== undefined) counts.short += 1
      if (from <= 0 && to >= 0) counts.held += 1
      if (low <= 0 && high >= 0) counts.plain += 1
      if (35 + from > 20) counts.lean += 1
      if (10 + to < 20) counts.level += 1
      counts.width += to - from
      counts.plainWidth += high - low
    })
  }
  return { ...counts, heldPct: (100 * counts.held) / counts.of, plainPct: (100 * counts.plain) / counts.of }
}

describe('95 % intervals hold the median that is reached in the long run', () => {
  test.each([
    { correlation: 0, n: 20, least: 94 },
    { correlation: 0.5, n: 20, least: 93.5 },
    { correlation: 0.8, n: 20, least: 92.5 },
    { correlation: 0.9, n: 20, least: 88 },
    { correlation: 0.8, n: 40, least: 92.5 },
  ])('correlation $correlation, $n events', ({ least, ...about }) => {
    const { heldPct, plainPct } = trial(about)
    expect(heldPct).toBeGreaterThan(least)
    // Without the stretch they do not: the test dies when it is taken out.
    if (about.correlation > 0) expect(plainPct).toBeLessThan(85)
  })

  test('independent events cost little width, and plain verdicts are still given', () => {
    const { width, plainWidth, lean, level, of } = trial({ correlation: 0, n: 20 })
    expect(width / plainWidth).toBeLessThan(1.35)
    expect(lean / of).toBeGreaterThan(0.99)
    expect(level / of).toBeGreaterThan(0.97)
  })
})

test('few events that are alike: only the recording is spoken of, and how long to record is said', () => {
  const { short, of } = trial({ correlation: 0.9, n: 14 }, 40)
  expect(short / of).toBeGreaterThan(0.9)
  expect(trial({ correlation: 0, n: 14 }, 40).short).toBe(0)
})

test('whole periods of a swing do not widen the interval as a drift does', () => {
  const swinging = (periodS: number): TimedValues[] => {
    const random = makeRandom(3)
    return Array.from({ length: 4 }, () => {
      const atS = Array.from({ length: 24 }, (_, i) => 0.15 * i)
      return {
        atS,
        values: atS.map((t) => 8 * Math.sin((2 * Math.PI * t) / periodS) + 2 * random.gaussian()),
      }
    })
  }
  const told = longRuns(swinging(1.2), 1.2)[0]!.stretch
  expect(told).toBeLessThan(1.3)
  expect(longRuns(swinging(1.2), undefined)[0]!.stretch).toBeGreaterThan(1.5 * told)
})
