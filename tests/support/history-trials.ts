import { loadLimits } from '../../src/limits/limits.ts'
import type { Random } from '../../src/maths/random.ts'
import { judgeHistory, type FollowedChange } from '../../src/verdicts/history/judge-history.ts'
import type { Followed, Visit, VisitCylinder, VisitFigure } from '../../src/verdicts/history/visit.ts'

export interface HistoryTrial {
  visits: number
  cylinders: number
  /** Points of late rise added to cylinder 1 now. */
  rise?: number
  stages?: readonly VisitCylinder['stage'][]
  /** How far vehicles differ in their scatter: standard deviation of its logarithm. */
  differ?: number
  /** The shop's vehicles scatter so many times as much as is stated. */
  shopScatter?: number
  /** Other vehicles of the shop with five visits each. */
  others?: number
}

/** Standard uncertainty of each figure as the demo captures show it: points of late rise, else %. */
const MEASURED: Readonly<Record<Followed, number>> = { late_rise_pct: 1.1, firing_kv: 3.7, burn_ms: 0.7 }
/** What is stated for the scatter from visit to visit. */
const STATED: Readonly<Record<Followed, number>> = { late_rise_pct: 1.5, firing_kv: 8, burn_ms: 3 }
/** Share of a visit's deviation that all cylinders have in common: fuel, temperature, recorder. */
const COMMON = 0.5

/** A vehicle with healthy visits and one more, judged against them. Figures are drawn; nothing is recorded. */
export function historyTrial(random: Random, trial: HistoryTrial): readonly FollowedChange[] {
  const { differ = 0.25, shopScatter = 1, others = 0 } = trial
  const make = () => vehicle(random, { ...trial, times: shopScatter * Math.exp(differ * random.gaussian()) })
  const own = make()
  const earlier = Array.from({ length: trial.visits }, () => own({ rise: 0, stages: ['before'] }))
  const now = own({ rise: trial.rise ?? 0, stages: trial.stages ?? ['before'] })
  const shop = Array.from({ length: others }, () => {
    const other = make()
    return Array.from({ length: 5 }, () => other({ rise: 0, stages: ['before'] }))
  })
  return judgeHistory(now, earlier, { others: shop, limits: loadLimits() }).changes
}

/** One vehicle: its healthy figures, and a function that draws a visit of it. */
function vehicle(random: Random, { cylinders, times }: { cylinders: number; times: number }) {
  const healthy = Array.from({ length: cylinders }, (): Record<Followed, number> => ({
    late_rise_pct: 2 * random.gaussian(),
    firing_kv: 9 + random.gaussian(),
    burn_ms: 1.4 + 0.05 * random.gaussian(),
  }))
  return ({ rise, stages }: { rise: number; stages: readonly VisitCylinder['stage'][] }): Visit => ({
    workOrder: 'drawn',
    opened: '2026-03-04',
    odometer: null,
    instrument: null,
    cylinders: stages.flatMap((stage) => {
      const together: Record<Followed, number> = {
        late_rise_pct: random.gaussian(),
        firing_kv: random.gaussian(),
        burn_ms: random.gaussian(),
      }
      return healthy.map((own, i): VisitCylinder => {
        const deviation = (figure: Followed) =>
          times *
            STATED[figure] *
            (Math.sqrt(COMMON) * together[figure] + Math.sqrt(1 - COMMON) * random.gaussian()) +
          MEASURED[figure] * random.gaussian()
        return {
          stage,
          cylinder: i + 1,
          healthy: true,
          figures: {
            late_rise_pct: inPoints(own.late_rise_pct + (i === 0 ? rise : 0) + deviation('late_rise_pct')),
            firing_kv: inShares(own.firing_kv * Math.exp(deviation('firing_kv') / 100), MEASURED.firing_kv),
            burn_ms: inShares(own.burn_ms * Math.exp(deviation('burn_ms') / 100), MEASURED.burn_ms),
          },
        }
      })
    }),
  })
}

const inPoints = (value: number): VisitFigure => ({
  value,
  low: value - 1.96 * MEASURED.late_rise_pct,
  high: value + 1.96 * MEASURED.late_rise_pct,
})
const inShares = (value: number, u: number): VisitFigure => ({
  value,
  low: value * Math.exp((-1.96 * u) / 100),
  high: value * Math.exp((1.96 * u) / 100),
})
