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
