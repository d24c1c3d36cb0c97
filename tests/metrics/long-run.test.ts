import { describe, expect, test } from 'vitest'
import { makeRandom } from '../../src/maths/random.ts'
import { longRuns, type TimedValues } from '../../src/metrics/long-run.ts'
import { longRunTrial } from '../support/long-run-trials.ts'

const pct = (count: number, { of }: { of: number }): number => (100 * count) / of

describe('95 % intervals hold the median that is reached in the long run', () => {
  // Least shares are the goals of the bench less twice the scatter of 900 intervals, six of an engine together.
  test.each([
    { correlation: 0, n: 15, least: 93, most: 98 },
    { correlation: 0, n: 20, least: 93, most: 98 },
    { correlation: 0.5, n: 20, least: 93.5, most: 99 },
    { correlation: 0.8, n: 20, least: 92.5, most: 99 },
    { correlation: 0.8, n: 60, least: 92.5, most: 98 },
    { correlation: 0.9, n: 20, least: 88, most: 97 },
    { correlation: 0.8, n: 20, cylinders: 4, least: 92, most: 99 },
    { correlation: 0.8, n: 20, together: 0.5, least: 91, most: 99 },
  ])('%o', ({ least, most, ...about }) => {
    const t = longRunTrial(about)
    expect(pct(t.held, t)).toBeGreaterThan(least)
    expect(pct(t.held, t)).toBeLessThan(most)
    // Independent events' intervals do not: the test dies when what is added is taken out.
    if (about.correlation > 0) expect(pct(t.plain, t)).toBeLessThan(85)
  })

  test('firing voltage, with the gain drawn from what the job states, and with the instrument left out', () => {
    const t = longRunTrial({ correlation: 0.8, n: 20, unit: 'kV' })
    expect(pct(t.held, t)).toBeGreaterThan(93)
    expect(pct(t.heldWithout, t)).toBeGreaterThan(93)
    expect(pct(t.plain, t)).toBeLessThan(85)
  })

  test('independent events cost little width', () => {
    const { width, plainWidth } = longRunTrial({ correlation: 0, n: 20 })
    expect(width / plainWidth).toBeLessThan(1.2)
  })

  test.each([0, 0.5, 0.8])(
    'at correlation %d plain cases are still called from 20 events on',
    (correlation) => {
      const t = longRunTrial({ correlation, n: 20 })
      expect(pct(t.lean, t)).toBeGreaterThan(97)
      expect(pct(t.level, t)).toBeGreaterThan(85)
      // Exactly at a limit neither side is said oftener than the report says.
      expect(pct(t.above, t)).toBeLessThan(3.6)
      expect(pct(t.below, t)).toBeLessThan(3.6)
    },
  )
})

test('cylinders of another scatter keep their own: the wider one is not stated as narrow as its fellows', () => {
  const random = makeRandom(5)
  const walk = (sd: number): number[] => {
    let x = random.gaussian()
    return Array.from({ length: 40 }, () => sd * (x = 0.8 * x + 0.6 * random.gaussian()))
  }
  const [quiet, wild] = longRuns(
    [1, 8, 1, 1].map((sd) => ({ atS: Array.from({ length: 40 }, (_, i) => 0.15 * i), values: walk(sd) })),
    undefined,
  )
  expect(wild!.beyond).toBeGreaterThan(3 * quiet!.beyond)
})

test('few events that are alike: only the recording is spoken of, and how long to record is said', () => {
  const t = longRunTrial({ correlation: 0.9, n: 14 }, 40)
  expect(pct(t.short, t)).toBeGreaterThan(90)
  expect(longRunTrial({ correlation: 0, n: 14 }, 40).short).toBe(0)
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
  const told = longRuns(swinging(1.2), 1.2)[0]!.beyond
  expect(told).toBeLessThan(0.8)
  expect(longRuns(swinging(1.2), undefined)[0]!.beyond).toBeGreaterThan(2 * told)
})

test('values all alike add nothing, and are no fault', () => {
  const flat = { atS: Array.from({ length: 20 }, (_, i) => 0.15 * i), values: new Array<number>(20).fill(33) }
  for (const { beyond } of longRuns([flat, flat], 1)) expect(beyond).toBeLessThan(1e-3)
})

test('a capture of one cylinder learns from the captures of the others how alike neighbours are', () => {
  const random = makeRandom(11)
  const series = (correlation: number): TimedValues => {
    let x = random.gaussian()
    const step = (): number => (x = correlation * x + Math.sqrt(1 - correlation ** 2) * random.gaussian())
    return { atS: Array.from({ length: 24 }, (_, i) => 0.15 * i), values: Array.from({ length: 24 }, step) }
  }
  const mean = (correlation: number, fellows: number): number => {
    const found = Array.from(
      { length: 60 },
      () =>
        longRuns(
          [series(correlation)],
          undefined,
          Array.from({ length: fellows }, () => series(correlation)),
        )[0]!.beyond,
    )
    return found.reduce((sum, b) => sum + b, 0) / found.length
  }
  // In standard deviations of the values: what is added to a half width of about 0.4 to 0.5.
  expect(mean(0, 5)).toBeLessThan(0.8 * mean(0, 0))
  expect(mean(0.8, 5)).toBeGreaterThan(0.8)
})
