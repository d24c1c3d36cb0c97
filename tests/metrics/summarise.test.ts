import { expect, test } from 'vitest'
import { makeRandom } from '../../src/maths/random.ts'
import { withBudget } from '../../src/metrics/budget.ts'
import {
  FIGURE_UNITS,
  type EventClass,
  type EventFigures,
  type MeasuredEvent,
} from '../../src/metrics/figures.ts'
import { summarise, summariseFigure } from '../../src/metrics/summarise.ts'
import { absent, measured } from '../../src/units/measured.ts'

const exact = { voltageUncertaintyPercent: 0, timeUncertaintyPpm: 0 }
const kv = (value: number, u = 0) => withBudget(value, 'kV', [{ source: 'noise', u }])

test('median, spread and interval by ranks', () => {
  const values = Array.from({ length: 20 }, (_, i) => i + 1)
  const summary = summariseFigure(
    values.map((v) => kv(v)),
    'kV',
    exact,
  )
  if (!summary.ok) throw new Error(summary.why)
  expect(summary).toMatchObject({ value: 10.5, mad: 5, n: 20, unit: 'kV' })
  // Conover 1999: ranks 6 and 15 bound the median of 20 values with 95.9 %; interpolation moves a little inwards.
  expect(summary.low).toBeGreaterThanOrEqual(6)
  expect(summary.low).toBeLessThan(6.5)
  expect(summary.high).toBeLessThanOrEqual(15)
  expect(summary.high).toBeGreaterThan(14.5)
})

test('a lopsided spread keeps its lopsided interval; the shared part widens both sides', () => {
  const values = Array.from({ length: 15 }, (_, i) => 2 + (i / 5) ** 3)
  const plain = summariseFigure(
    values.map((v) => kv(v)),
    'kV',
    exact,
  )
  const wide = summariseFigure(
    values.map((v) => kv(v)),
    'kV',
    { voltageUncertaintyPercent: 10, timeUncertaintyPpm: 0 },
  )
  if (!plain.ok || !wide.ok) throw new Error('absent')
  expect(plain.high - plain.value).toBeGreaterThan(1.5 * (plain.value - plain.low))
  const gain = 1.959964 * 0.05 * plain.value
  expect(wide.value - wide.low).toBeCloseTo(Math.hypot(plain.value - plain.low, gain), 5)
  expect(wide.high - wide.value).toBeCloseTo(Math.hypot(plain.high - plain.value, gain), 5)
})

test('the budget makes up the interval', () => {
  const random = makeRandom(6)
  const figures = Array.from({ length: 30 }, () =>
    withBudget(1.6 + 0.05 * random.gaussian(), 'kV', [
      { source: 'noise', u: 0.01 },
      { source: 'sampling', u: 0.004 },
      { source: 'method', u: 0.003 },
    ]),
  )
  const summary = summariseFigure(figures, 'kV', { voltageUncertaintyPercent: 5, timeUncertaintyPpm: 0 })
  if (!summary.ok) throw new Error(summary.why)
  const half = 1.959964 * Math.hypot(...summary.budget.map((l) => l.u))
  expect(Math.abs((summary.high - summary.low) / 2 / half - 1)).toBeLessThan(0.02)
  expect(summary.budget.map((l) => l.source).toSorted()).toEqual([
    'instrument',
    'method',
    'noise',
    'sampling',
    'scatter',
  ])
})

test('equal readings of a coarse recorder keep half a step of doubt', () => {
  const step = 0.078
  const figures = Array.from({ length: 20 }, () =>
    withBudget(1.6, 'kV', [{ source: 'quantisation', u: step / Math.sqrt(12) }]),
  )
  const summary = summariseFigure(figures, 'kV', exact)
  if (!summary.ok) throw new Error(summary.why)
  expect(summary.high - summary.value).toBeCloseTo((1.959964 * step) / Math.sqrt(12), 3)
})

test('the gain has no part in a share', () => {
  const figures = Array.from({ length: 12 }, (_, i) => withBudget(i, '%', [{ source: 'noise', u: 1 }]))
  const summary = summariseFigure(figures, '%', { voltageUncertaintyPercent: 50, timeUncertaintyPpm: 0 })
  expect(summary.ok && summary.budget.some((l) => l.source === 'instrument')).toBe(false)
})

// Truth 2 kV; values skewed, gain error drawn anew for every capture from the stated uncertainty.
test('the 95 % interval holds the truth in 93 to 97 % of captures', () => {
  const random = makeRandom(77)
  const runs = 2000
  let held = 0
  for (let run = 0; run < runs; run++) {
    const gain = 1 + 0.01 * random.gaussian()
    const n = 10 + random.integer(40)
    const figures = Array.from({ length: n }, () =>
      kv(gain * 2 * Math.exp(0.05 * random.gaussian() + 0.01 * random.gaussian()), 0.02),
    )
    const summary = summariseFigure(figures, 'kV', { voltageUncertaintyPercent: 2, timeUncertaintyPpm: 0 })
    if (summary.ok && summary.low <= 2 && summary.high >= 2) held++
  }
  expect(held / runs).toBeGreaterThan(0.93)
  expect(held / runs).toBeLessThan(0.97)
})

test('absence: too few, or the commonest reason', () => {
  expect(summariseFigure([kv(1), kv(2)], 'kV', exact)).toEqual({ ok: false, why: 'too-few-events' })
  expect(summariseFigure([absent('clipped'), absent('clipped'), absent('partial')], 'kV', exact)).toEqual({
    ok: false,
    why: 'clipped',
  })
})

const figures = (burn: number): EventFigures =>
  ({
    ...Object.fromEntries(Object.keys(FIGURE_UNITS).map((k) => [k, absent('not-visible')])),
    burnMs: measured(burn, 0.01, 'ms'),
    firingKv: measured(9, 0.1, 'kV'),
  }) as unknown as EventFigures
const event = (cylinder: number, at: number, more: Partial<MeasuredEvent> = {}): MeasuredEvent => ({
  capture: 'c.csv',
  stage: 'before',
  cylinder,
  number: 1,
  kind: 'firing',
  breakdownS: at,
  figures: figures(1.4),
  class: 'level' as EventClass,
  flags: [],
  ...more,
})

test('a row a cylinder: counts, misfires, missing events, shares', () => {
  const own = Array.from({ length: 10 }, (_, i) => event(2, 0.15 * (i < 6 ? i : i + 1)))
  own[3] = event(2, 0.45, { class: 'no spark line', figures: figures(0.2) })
  const rows = summarise(
    [
      ...own,
      event(1, 0.07),
      event(2, 1.65, { flags: ['partial'], class: 'unclear' }),
      event(2, 0.08, { kind: 'wasted', class: 'wasted' }),
    ],
    { stage: 'before', capture: 'c.csv', engine: { strokes: 4 }, instrument: exact, cylinders: [1, 2, 3] },
  )
  expect(rows.map((r) => r.cylinder)).toEqual([1, 2, 3])
  expect(rows[1]).toMatchObject({ events: 10, partial: 1, wasted: 1, misfires: 1, missing: 1 })
  expect(rows[1]!.classShares.level).toBeCloseTo(0.9, 12)
  // The stub is no spark line and does not count as a burn.
  expect(rows[1]!.figures.burnMs).toMatchObject({ ok: true, n: 9, value: 1.4 })
  expect(rows[1]!.figures.firingKv).toMatchObject({ ok: true, n: 10 })
  expect(rows[2]).toMatchObject({ events: 0, figures: { burnMs: { ok: false, why: 'too-few-events' } } })
})
