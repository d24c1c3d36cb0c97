import { expect, test } from 'vitest'
import { classifyEvent } from '../../src/metrics/classify-event.ts'
import { FIGURE_UNITS, type EventFigures } from '../../src/metrics/figures.ts'
import { absent, measured, type Measured } from '../../src/units/measured.ts'

const limits = { lateRisePct: 20, stubBurnMs: 0.35 }
const figures = (burnMs: Measured<'ms'>, lateRisePct: Measured<'%'>): EventFigures =>
  ({
    ...Object.fromEntries(Object.keys(FIGURE_UNITS).map((k) => [k, absent('not-visible')])),
    burnMs,
    lateRisePct,
  }) as unknown as EventFigures
const burning = (pct: number, u: number) => figures(measured(1.4, 0.01, 'ms'), measured(pct, u, '%'))

test.each([
  ['clear above the limit', burning(30, 4), 'lean'],
  ['touching the limit', burning(27, 4), 'unclear'],
  ['clear below', burning(-30, 4), 'falling'],
  ['wholly inside', burning(5, 4), 'level'],
  ['a stub of a line', figures(measured(0.2, 0.01, 'ms'), measured(40, 1, '%')), 'no spark line'],
  ['no line', figures(absent('no-spark-line'), absent('no-spark-line')), 'no spark line'],
  ['a clipped line', figures(measured(1.4, 0.01, 'ms'), absent('clipped')), 'unclear'],
] as const)('%s', (_, given, expected) => {
  expect(classifyEvent({ kind: 'firing', flags: [], figures: given }, limits)).toBe(expected)
})
test('wasted and cut events are classed before their figures', () => {
  expect(classifyEvent({ kind: 'wasted', flags: [], figures: burning(-40, 1) }, limits)).toBe('wasted')
  expect(classifyEvent({ kind: 'wasted', flags: ['partial'], figures: burning(-40, 1) }, limits)).toBe(
    'unclear',
  )
})

/** A breakdown of some microseconds, then an arc well below it, against the half-wave of an open circuit, 0.2 ms long. */
test('an arc that goes out before it is a line is none of an open circuit', () => {
  const stub = {
    ...figures(measured(0.24, 0.01, 'ms'), measured(40, 1, '%')),
    midKv: measured(1.9, 0.02, 'kV'),
  }
  const said = (shape: { topKv: number; topLastsMs: number }) =>
    classifyEvent({ kind: 'firing', flags: [], figures: stub, ...shape }, limits)
  expect(said({ topKv: 9, topLastsMs: 0.004 })).toBe('went out')
  expect(said({ topKv: 9, topLastsMs: 0.06 })).toBe('no spark line')
  expect(said({ topKv: 2.5, topLastsMs: 0.004 })).toBe('no spark line')
})
