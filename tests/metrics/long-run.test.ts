import { describe, expect, test } from 'vitest'
import { makeRandom } from '../../src/maths/random.ts'
import { longRuns, type TimedValues } from '../../src/metrics/long-run.ts'
import { longRunTrial } from '../support/long-run-trials.ts'

describe('95 % intervals hold the median that is reached in the long run', () => {
  test.each([
    { correlation: 0, n: 20, least: 94 },
    { correlation: 0.5, n: 20, least: 93.5 },
    { correlation: 0.8, n: 20, least: 92.5 },
    { correlation: 0.9, n: 20, least: 88 },
    { correlation: 0.8, n: 40, least: 92.5 },
  ])('correlation $correlation, $n events', ({ least, ...about }) => {
    const { heldPct, plainPct } = longRunTrial(about)
    expect(heldPct).toBeGreaterThan(least)
    // Without the stretch they do not: the test dies when it is taken out.
    if (about.correlation > 0) expect(plainPct).toBeLessThan(85)
  })

  test('independent events cost little width, and plain verdicts are still given', () => {
    const { width, plainWidth, lean, level, of } = longRunTrial({ correlation: 0, n: 20 })
    expect(width / plainWidth).toBeLessThan(1.35)
    expect(lean / of).toBeGreaterThan(0.99)
    expect(level / of).toBeGreaterThan(0.97)
  })
})

test('few events that are alike: only the recording is spoken of, and how long to record is said', () => {
  const { short, of } = longRunTrial({ correlation: 0.9, n: 14 }, 40)
  expect(short / of).toBeGreaterThan(0.9)
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
  const told = longRuns(swinging(1.2), 1.2)[0]!.stretch
  expect(told).toBeLessThan(1.3)
  expect(longRuns(swinging(1.2), undefined)[0]!.stretch).toBeGreaterThan(1.5 * told)
})

test('values all alike give an interval of no width, and no fault', () => {
  const flat = { atS: Array.from({ length: 20 }, (_, i) => 0.15 * i), values: new Array<number>(20).fill(33) }
  for (const { stretch } of longRuns([flat, flat], 1)) expect(stretch).toBeGreaterThanOrEqual(1)
})
