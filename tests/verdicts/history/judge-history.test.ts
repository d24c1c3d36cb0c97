import { describe, expect, test } from 'vitest'
import { loadLimits } from '../../../src/limits/limits.ts'
import { makeRandom } from '../../../src/maths/random.ts'
import { judgeHistory } from '../../../src/verdicts/history/judge-history.ts'
import { judgeChange, scatterOf, shopScatter } from '../../../src/verdicts/history/reference-change.ts'
import type { Visit } from '../../../src/verdicts/history/visit.ts'
import { historyTrial, type HistoryTrial } from '../../support/history-trials.ts'

/** Vehicles drawn for the share of false alarms, and for the share found: the first is small, and needs more of them. */
const HEALTHY = 2000
const CHANGED = 200

/** Share of reports with any false alarm, and with the change of cylinder 1 found, %. */
function shares(trial: HistoryTrial, rise: number): { alarms: number; found: number } {
  const random = makeRandom(4711)
  const isFound = (of: ReturnType<typeof historyTrial>) =>
    of.some(({ change, cylinder, figure }) => change.changed && cylinder === 1 && figure === 'late_rise_pct')
  const healthy = Array.from({ length: HEALTHY }, () => historyTrial(random, trial))
  const risen = Array.from({ length: CHANGED }, () => historyTrial(random, { ...trial, rise }))
  return {
    alarms: (100 * healthy.filter((of) => of.some(({ change }) => change.changed)).length) / HEALTHY,
    found: (100 * risen.filter(isFound).length) / CHANGED,
  }
}

/** What the limit of late rise needs, and half of it. */
const HALF = loadLimits().lateRisePct.value / 2

describe('simulated vehicles: at most 2.5 % of reports with a false alarm, half of what the limit needs is found', () => {
  test.each<[string, HistoryTrial, number]>([
    ['one earlier visit', { visits: 1, cylinders: 4 }, 55],
    ['two', { visits: 2, cylinders: 4 }, 75],
    ['three, six cylinders, both states', { visits: 3, cylinders: 6, stages: ['before', 'after'] }, 75],
    ['six, eight cylinders', { visits: 6, cylinders: 8 }, 85],
    // the shop's engines scatter half as much again as is stated: the other vehicles say so
    ['a shop that scatters more', { visits: 2, cylinders: 4, shopScatter: 1.5, others: 8 }, 30],
    ['a shop that scatters less', { visits: 3, cylinders: 4, shopScatter: 0.6, others: 8 }, 95],
  ])('%s', (_, trial, least) => {
    const { alarms, found } = shares(trial, HALF)
    expect(alarms).toBeLessThanOrEqual(2.5)
    expect(found).toBeGreaterThanOrEqual(least)
  })

  test('without the scatter from visit to visit there would be false alarms', () => {
    const random = makeRandom(4711)
    const none = Array.from({ length: CHANGED }, () => historyTrial(random, { visits: 3, cylinders: 4 }))
    const byMeasuringAlone = none.filter((changes) =>
      changes.some(({ change, now, figure }) => {
        const u =
          figure === 'late_rise_pct' ? (now.high - now.low) / 2 : (50 * (now.high - now.low)) / now.value
        return Math.abs(change.change) > 2 * u
      }),
    )
    expect(byMeasuringAlone.length / CHANGED).toBeGreaterThan(0.2)
  })
})

describe('the reference change value', () => {
  test('is z * sqrt(2) * sqrt(u² + s²) against one visit where both are known (Fraser 2001: 2.77 times at 95 %)', () => {
    const { limit } = judgeChange({ x: 5, u: 0.6 }, [{ x: 0, u: 0.6 }], {
      scatter: { sd: 0.8, freedom: 1e9 },
      level: 0.05,
    })
    expect(limit).toBeCloseTo(1.959964 * Math.SQRT2 * 1, 4)
  })

  test('narrows with visits towards that of the new figure alone', () => {
    const known = { scatter: { sd: 1, freedom: 1e9 }, level: 0.05 }
    const many = Array.from({ length: 10_000 }, () => ({ x: 0, u: 1 }))
    expect(judgeChange({ x: 0, u: 1 }, many, known).limit).toBeCloseTo(1.959964 * Math.SQRT2, 3)
  })

  test('own scatter is drawn towards what is known beforehand by the stated weight; measuring is taken out', () => {
    const prior = { sd: 2, freedom: 8 }
    expect(scatterOf([[{ x: 0, u: 0 }]], prior)).toEqual(prior)
    // mean square 8 over one degree of freedom beside 8 of the prior's 4
    expect(
      scatterOf(
        [
          [
            { x: 0, u: 0 },
            { x: 4, u: 0 },
          ],
        ],
        prior,
      ),
    ).toEqual({ sd: Math.sqrt((8 * 4 + 8) / 9), freedom: 9 })
    expect(
      scatterOf(
        [
          [
            { x: 0, u: 2 },
            { x: 4, u: 2 },
          ],
        ],
        prior,
      ).sd,
    ).toBeCloseTo(Math.sqrt((32 + 8 - 4) / 9), 12)
    // the cylinders of a visit move together: four of them weigh as one
    const four = Array.from({ length: 4 }, () => [
      { x: 0, u: 0 },
      { x: 4, u: 0 },
    ])
    expect(scatterOf(four, prior)).toEqual(scatterOf(four.slice(1), prior))
    expect(shopScatter([four, four], prior)).toEqual({ sd: Math.sqrt((32 + 16) / 10), freedom: 8 })
  })
})

describe('what is a reference', () => {
  const figure = (value: number) => ({ value, low: value - 1, high: value + 1 })
  const visit = (more: Partial<Visit['cylinders'][number]>, instrument: string | null = null): Visit => ({
    workOrder: 'x',
    opened: '2026-01-01',
    odometer: null,
    instrument,
    cylinders: [
      {
        stage: 'before',
        cylinder: 1,
        healthy: true,
        figures: { late_rise_pct: figure(0), firing_kv: figure(9) },
        ...more,
      },
    ],
  })
  const asked = (visits: readonly Visit[], now = visit({})) =>
    judgeHistory(now, visits, { others: [], limits: loadLimits() }).changes.map(
      ({ figure: name, reference, change }) => `${name} ${reference.toFixed(1)} of ${change.visits}`,
    )

  test('only healthy figures; as the cylinder left, where it was recorded after the work', () => {
    expect(asked([visit({ healthy: false })])).toEqual([])
    const mended: Visit = {
      ...visit({}),
      cylinders: [
        { ...visit({}).cylinders[0]!, healthy: false, figures: { late_rise_pct: figure(40) } },
        { ...visit({}).cylinders[0]!, stage: 'after', figures: { late_rise_pct: figure(2) } },
      ],
    }
    expect(asked([visit({}), mended])).toEqual(['late_rise_pct 1.0 of 2', 'firing_kv 9.0 of 1'])
  })

  test('firing voltages of another pickup compare with none of this one', () => {
    expect(asked([visit({}, 'another')])).toEqual(['late_rise_pct 0.0 of 1'])
  })
})
