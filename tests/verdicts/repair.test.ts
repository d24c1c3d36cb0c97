import { sentence } from '../../src/texts/messages.ts'
import { describe, expect, test } from 'vitest'
import { makeRandom } from '../../src/maths/random.ts'
import {
  FIGURE_UNITS,
  type EventFigures,
  type FigureName,
  type MeasuredEvent,
} from '../../src/metrics/figures.ts'
import { loadLimits } from '../../src/limits/limits.ts'
import { absent } from '../../src/units/measured.ts'
import { compareConditions, type StageConditions } from '../../src/verdicts/compare-conditions.ts'
import { checkRepair as checkStages } from '../../src/verdicts/repair.ts'
import type { StageCylinder } from '../../src/verdicts/repair-change.ts'
import type { VerdictName } from '../../src/verdicts/verdict-names.ts'

/** Events with a stated mean and scatter of late rise; other figures alike. */
function stage(verdict: VerdictName, lateRise: number, seed: number, count = 40): StageCylinder {
  const random = makeRandom(seed)
  const events = Array.from({ length: count }, (_, i): MeasuredEvent => {
    const values: Partial<Record<FigureName, number>> = {
      lateRisePct: lateRise + 4 * random.gaussian(),
      burnMs: 1.4,
      firingKv: 9,
      midKv: 1.6,
    }
    const figures = Object.fromEntries(
      Object.entries(FIGURE_UNITS).map(([name, unit]) => {
        const value = values[name as FigureName]
        return [name, value === undefined ? absent('not-recorded') : { ok: true, value, u: 0.01, unit }]
      }),
    ) as unknown as EventFigures
    return {
      capture: 'c',
      stage: 'before',
      cylinder: 1,
      number: i + 1,
      kind: 'firing',
      breakdownS: i,
      figures,
      class: 'level',
      flags: [],
    }
  })
  return { verdict, events }
}
const limits = loadLimits()
const checkRepair = (
  before: ReadonlyMap<number, StageCylinder>,
  after: ReadonlyMap<number, StageCylinder>,
  changes: Parameters<typeof checkStages>[1],
) => checkStages({ before, after }, changes, limits)
const engine = (...cylinders: StageCylinder[]) => new Map(cylinders.map((c, i) => [i + 1, c]))

// JCGM 100:2008, 5.1.2, by hand: ranks leave nothing (all burns alike), shared u 0.03 and 0.04 ms add to 0.05 ms;
// one cylinder, so 95 % and 1.96: half width 0.098 ms.
test('another recorder adds what it shares among its events; the same one does not', () => {
  const withShared = (seed: number, u: number): StageCylinder => ({
    ...stage('level', 3, seed),
    figures: {
      burnMs: {
        ok: true,
        value: 1.4,
        low: 1.3,
        high: 1.5,
        unit: 'ms',
        mad: 0,
        n: 40,
        budget: [
          { source: 'scatter', u: 9 },
          { source: 'method', u },
        ],
      },
    } as unknown as NonNullable<StageCylinder['figures']>,
  })
  const burn = (changes: Parameters<typeof checkStages>[1]) =>
    checkRepair(engine(withShared(1, 0.03)), engine(withShared(2, 0.04)), changes).cylinders[0]!.shifts[
      'burnMs'
    ]
  const another = burn([{ says: sentence('conditions.rate', { before: 1, after: 2 }), forbids: 'voltage' }])
  expect(another?.ok && another.interval.high).toBeCloseTo(0.098, 4)
  expect(another?.ok && another.interval.low).toBeCloseTo(-0.098, 4)
  const same = burn([])
  expect(same?.ok && same.interval.high).toBe(0)
})

// Bonferroni: 95 % of the whole table of eight is 99.375 % of each; the interval by the same ranks, asked for at that.
test('the table holds as a whole at 95 %: eight cylinders are each held to more than one alone', () => {
  const eight = (seed: number) =>
    engine(...Array.from({ length: 8 }, (_, i) => stage('level', 3, seed + i, 20)))
  const changed = (seed: number): number =>
    checkRepair(eight(seed), eight(seed + 5000), []).cylinders.filter(({ shifts }) => {
      const shift = shifts.lateRisePct!
      return shift.ok && (shift.interval.low > 0 || shift.interval.high < 0)
    }).length
  const engines = 120
  const some = Array.from({ length: engines }, (_, i) => changed(100 * i)).filter((n) => n > 0).length
  // 5 % and twice its scatter; without the rule a third of the engines show a change that is none.
  expect(some / engines).toBeLessThan(0.05 + 2 * Math.sqrt((0.05 * 0.95) / engines))
  const width = (
    of: ReadonlyMap<number, StageCylinder>,
    then: ReadonlyMap<number, StageCylinder>,
  ): number => {
    const shift = checkRepair(of, then, []).cylinders[0]!.shifts.lateRisePct!
    return shift.ok ? shift.interval.high - shift.interval.low : 0
  }
  const alone = width(engine(stage('level', 3, 1, 20)), engine(stage('level', 3, 5001, 20)))
  // Half widths of a normal figure go as the quantiles: 2.734 at 99.375 % over 1.960 at 95 %.
  expect(width(eight(1), eight(5001)) / alone).toBeGreaterThan(1.2)
})

describe('repair check', () => {
  test('lean before, level after: confirmed, and the shift is the one simulated', () => {
    const check = checkRepair(
      engine(stage('lean', 40, 1), stage('level', 3, 2)),
      engine(stage('level', 2, 3), stage('level', 3, 4)),
      [],
    )
    expect(check.verdict).toBe('repair confirmed')
    const shift = check.cylinders[0]!.shifts.lateRisePct!
    expect(shift.ok && shift.interval.low < -38 && shift.interval.high > -38).toBe(true)
  })
  test('less lean but still lean: improved', () => {
    expect(checkRepair(engine(stage('lean', 60, 1)), engine(stage('lean', 35, 2)), []).verdict).toBe(
      'improved, not in order',
    )
  })
  test('the same again: no change', () => {
    expect(checkRepair(engine(stage('lean', 40, 1)), engine(stage('lean', 40, 2)), []).verdict).toBe(
      'no change',
    )
  })
  test('leaner: worse', () => {
    expect(checkRepair(engine(stage('lean', 40, 1)), engine(stage('lean', 60, 2)), []).verdict).toBe('worse')
  })
  test('one mended, another newly lean: worse, never confirmed', () => {
    expect(
      checkRepair(
        engine(stage('lean', 40, 1), stage('level', 3, 2)),
        engine(stage('level', 3, 3), stage('lean', 40, 4)),
        [],
      ).verdict,
    ).toBe('worse')
  })
  // A verdict near its limit falls on either side by luck; without a change of its figure it is no repair and no damage.
  test.each([
    ['lean', 'level'],
    ['level', 'lean'],
    ['misfiring', 'level'],
    ['level', 'open secondary'],
    ['external resistance', 'level'],
  ] as const)('%s before and %s after on the same figures: no change', (before, after) => {
    expect(checkRepair(engine(stage(before, 20, 1)), engine(stage(after, 19, 2)), []).verdict).toBe(
      'no change',
    )
  })
  test('sparks that failed before burn after: confirmed; those that fail after: worse', () => {
    const failing = { ...stage('misfiring', 3, 1), missedTurns: 30 }
    expect(checkRepair(engine(failing), engine(stage('level', 3, 2)), []).verdict).toBe('repair confirmed')
    expect(checkRepair(engine(stage('lean', 40, 2)), engine(failing), []).verdict).toBe('worse')
  })
  test('a mixture fault seen only once the cylinder fires again: improved, not worse', () => {
    expect(
      checkRepair(engine({ ...stage('misfiring', 3, 1), missedTurns: 30 }), engine(stage('lean', 40, 2)), [])
        .verdict,
    ).toBe('improved, not in order')
  })
  test('from lean to falling as far on the other side: neither better nor worse', () => {
    expect(checkRepair(engine(stage('lean', 40, 1)), engine(stage('falling', -40, 2)), []).verdict).toBe(
      'no change',
    )
  })
  test('no capture after: not checked', () => {
    expect(checkRepair(engine(stage('lean', 40, 1)), new Map(), []).verdict).toBe('not checked')
  })
  test('an odd cylinder that cannot be judged after: not checked', () => {
    expect(
      checkRepair(
        engine(stage('lean', 40, 1), stage('lean', 40, 2)),
        engine(stage('level', 3, 3), stage('not judged', 3, 4)),
        [],
      ).verdict,
    ).toBe('not checked')
  })
  test('in order before and after: no change', () => {
    expect(checkRepair(engine(stage('level', 2, 1)), engine(stage('level', 3, 2)), []).verdict).toBe(
      'no change',
    )
  })
  // Bonferroni's rule: with 12 cylinders and no change, the whole table is quiet in at least 95 % of engines.
  test('chance alone moves no cylinder of a 12-cylinder engine in 95 % of 100 engines', () => {
    const leanEngine = (seed: number) =>
      engine(...Array.from({ length: 12 }, (_, i) => stage('lean', 40, seed * 100 + i, 30)))
    const quiet = Array.from({ length: 100 }, (_, k) =>
      checkRepair(leanEngine(2 * k + 1), leanEngine(2 * k + 2), []),
    ).filter((check) => check.verdict === 'no change').length
    expect(quiet).toBeGreaterThanOrEqual(90)
  })
})

describe('conditions before and after', () => {
  const same: StageConditions = {
    condition: 'idle',
    engine: 'warm',
    meanRpm: 750,
    sampleRateHz: 5e5,
    pickup: 'kv × 1 kV',
    quantumKv: 0.01,
  }
  test('alike: nothing to say', () => expect(compareConditions(same, same, limits)).toEqual([]))
  test.each([
    ['cold before', { engine: 'cold' }, 'conditions.engine', 'all'],
    ['2500 rpm before', { condition: '2500 rpm' }, 'conditions.condition', 'all'],
    ['much faster before', { meanRpm: 1100 }, 'conditions.speed', 'all'],
    ['another pickup', { pickup: 'kv × 2 kV' }, 'conditions.pickup', 'voltage'],
    ['another rate', { sampleRateHz: 1e5 }, 'conditions.rate', 'voltage'],
    ['coarser steps', { quantumKv: 0.08 }, 'conditions.steps', 'voltage'],
  ] as const)('%s', (_, change, key, forbids) => {
    expect(
      compareConditions({ ...same, ...change }, same, limits).map((c) => [c.says.key, c.forbids]),
    ).toEqual([[key, forbids]])
  })
  test('a cold capture before is never compared: not checked', () => {
    const changes = compareConditions({ ...same, engine: 'cold' }, same, limits)
    expect(checkRepair(engine(stage('lean', 40, 1)), engine(stage('level', 3, 2)), changes).verdict).toBe(
      'not checked',
    )
  })
  test('another pickup leaves out shifts in kV and keeps the relative ones', () => {
    const changes = compareConditions({ ...same, pickup: 'x' }, same, limits)
    const { shifts } = checkRepair(engine(stage('lean', 40, 1)), engine(stage('level', 3, 2)), changes)
      .cylinders[0]!
    expect([shifts.firingKv!.ok, shifts.lateRisePct!.ok]).toEqual([false, true])
  })
})
