import { expect, test } from 'vitest'
import { makeRandom } from '../../src/maths/random.ts'
import { FIGURE_UNITS, type EventFigures, type MeasuredEvent } from '../../src/metrics/figures.ts'
import { measureSpeed } from '../../src/metrics/measure-speed.ts'
import { absent } from '../../src/units/measured.ts'
import { present } from './analytic-wave.ts'

const figures = Object.fromEntries(
  Object.keys(FIGURE_UNITS).map((k) => [k, absent('not-visible')]),
) as unknown as EventFigures
const about = {
  stage: 'before',
  capture: 'c.csv',
  engine: { strokes: 4 },
  instrument: { voltageUncertaintyPercent: 5, timeUncertaintyPpm: 100 },
} as const

/** Four cylinders firing in turn, the crankshaft's speed drawn anew every half turn. */
function events(rpm: () => number, cycles: number): MeasuredEvent[] {
  let at = 0.01
  return Array.from({ length: 4 * cycles }, (_, i) => {
    const event: MeasuredEvent = {
      capture: 'c.csv',
      stage: 'before',
      cylinder: [1, 3, 4, 2][i % 4],
      number: i + 1,
      kind: 'firing',
      breakdownS: at,
      figures,
      class: 'level',
      flags: [],
    }
    at += 30 / rpm()
    return event
  })
}

test('a steady engine: mean to the clock, no spread, no swing', () => {
  const speed = measureSpeed(
    events(() => 812, 20),
    about,
  )
  const mean = present(speed.mean)
  expect(mean.value).toBeCloseTo(812, 9)
  // Clock: 100 parts in a million at k = 2.
  expect(mean.high - mean.value).toBeCloseTo((812 * 1.959964 * 100e-6) / 2, 4)
  expect(present(speed.spread).value).toBeLessThan(1e-6)
  expect(speed.swing).toEqual({ ok: false, why: 'not-visible' })
})

test('the 95 % interval of the mean holds the set speed', () => {
  const random = makeRandom(8)
  const runs = 400
  let held = 0
  for (let run = 0; run < runs; run++) {
    const mean = present(
      measureSpeed(
        events(() => 760 + 12 * random.gaussian(), 12 + random.integer(20)),
        about,
      ).mean,
    )
    if (mean.low <= 760 && mean.high >= 760) held++
  }
  expect(held / runs).toBeGreaterThan(0.93)
  expect(held / runs).toBeLessThan(0.99)
})

test('a missing event is no slow cycle', () => {
  const all = events(() => 800, 12)
  const mean = present(
    measureSpeed(
      all.filter((_, i) => i !== 20),
      about,
    ).mean,
  )
  expect(mean.value).toBeCloseTo(800, 6)
})

test('too few cycles', () => {
  expect(
    measureSpeed(
      events(() => 800, 2),
      about,
    ).mean,
  ).toEqual({ ok: false, why: 'too-few-events' })
  expect(measureSpeed([], about).spread).toEqual({ ok: false, why: 'too-few-events' })
})
