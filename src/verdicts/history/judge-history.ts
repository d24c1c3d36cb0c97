import { limit, type Limits } from '../../limits/limits.ts'
import {
  judgeChange,
  scatterOf,
  shopScatter,
  type Change,
  type Point,
  type Scatter,
} from './reference-change.ts'
import { FOLLOWED, leftAs, type Followed, type Visit, type VisitCylinder, type VisitFigure } from './visit.ts'

/** A cylinder's figure held against the same cylinder's on earlier visits. */
export interface FollowedChange {
  stage: 'before' | 'after'
  cylinder: number
  figure: Followed
  now: VisitFigure
  /** In the unit the figure is followed in: points of late rise, else % of the reference. */
  change: Change
  /** The reference in the figure's own unit. */
  reference: number
}

export interface JudgedHistory {
  changes: readonly FollowedChange[]
  /** Scatter from visit to visit that each figure was judged with. */
  scatter: Readonly<Record<Followed, Scatter>>
}

/** Half the width of a 95 % interval in standard uncertainties. */
const HALF_WIDTH = 1.96

/** How a figure is followed: late rise as it is, in points; the others by their logarithm, so that a change is a share. */
const WAYS: Readonly<Record<Followed, { at: (value: number) => number; back: (x: number) => number }>> = {
  late_rise_pct: { at: (value) => value, back: (x) => x },
  firing_kv: { at: (value) => 100 * Math.log(value), back: (x) => Math.exp(x / 100) },
  burn_ms: { at: (value) => 100 * Math.log(value), back: (x) => Math.exp(x / 100) },
}

/** Limits that hold what is taken for the scatter where neither the vehicle nor the shop shows its own. */
const STATED = {
  late_rise_pct: 'historyRisePct',
  firing_kv: 'historyFiringPct',
  burn_ms: 'historyBurnPct',
} as const satisfies Record<Followed, string>

/** Share of the report's false alarms each figure may use: most for the one that verdicts depend on. */
const SHARES: Readonly<Record<Followed, number>> = { late_rise_pct: 0.6, firing_kv: 0.2, burn_ms: 0.2 }

/** Visits that what is known beforehand counts for. This project's judgement. */
const PRIOR_VISITS = 8

/** A figure as a point; undefined where it is not positive and has no logarithm. */
function pointOf(figure: Followed, { value, low, high }: VisitFigure): Point | undefined {
  const { at } = WAYS[figure]
  const [x, below, above] = [at(value), at(low), at(high)]
  return [x, below, above].every(Number.isFinite) ? { x, u: (above - below) / 2 / HALF_WIDTH } : undefined
}

/**
 * Holds what was recorded now against the same vehicle's own healthy figures, so that a change shows long before it
 * reaches a limit. Over the whole report the chance of a false alarm is at most that of `historyFalseAlarmPct`: it is
 * parted over the figures and within a figure evenly (Bonferroni).
 *
 * @param visits  earlier visits of the vehicle, oldest first
 * @param others  visits of other vehicles of the shop, a list a vehicle: they tell how much healthy figures scatter
 */
export function judgeHistory(
  now: Pick<Visit, 'instrument' | 'cylinders'>,
  visits: readonly Visit[],
  { others, limits }: { others: readonly (readonly Visit[])[]; limits: Limits },
): JudgedHistory {
  const alarms = limit(limits, 'historyFalseAlarmPct') / 100
  const judged = FOLLOWED.map((figure) => {
    const stated = { sd: limit(limits, STATED[figure]), freedom: PRIOR_VISITS }
    const prior = shopScatter(
      others.map((vehicle) => healthyPoints(vehicle, figure)),
      stated,
    )
    // A voltage of another pickup compares with none of this one; shares and times do.
    const comparable = figure === 'firing_kv' ? visits.filter((v) => v.instrument === now.instrument) : visits
    const own = healthyByCylinder(comparable, figure)
    const scatter = scatterOf([...own.values()], prior)
    const asked = now.cylinders.flatMap((c) => askedOf(c, figure, own.get(c.cylinder)))
    const level = (alarms * SHARES[figure]) / asked.length
    const changes = asked.map(({ cylinder, figure: value, point, earlier }): FollowedChange => {
      const change = judgeChange(point, earlier, { scatter, level })
      return {
        stage: cylinder.stage,
        cylinder: cylinder.cylinder,
        figure,
        now: value,
        change,
        reference: WAYS[figure].back(change.reference),
      }
    })
    return { figure, scatter, changes }
  })
  return {
    changes: judged.flatMap(({ changes }) => changes),
    scatter: Object.fromEntries(
      judged.map(({ figure, scatter }) => [figure, scatter]),
    ) as JudgedHistory['scatter'],
  }
}

/** What is asked of a cylinder now: nothing where its figure is absent or no healthy one stands before it. */
function askedOf(cylinder: VisitCylinder, figure: Followed, earlier: readonly Point[] | undefined) {
  const value = cylinder.figures[figure]
  const point = value && pointOf(figure, value)
  return value && point && earlier ? [{ cylinder, figure: value, point, earlier }] : []
}

/** Healthy figures of each cylinder, visit by visit. */
function healthyByCylinder(visits: readonly Visit[], figure: Followed): Map<number, Point[]> {
  const points = new Map<number, Point[]>()
  const numbers = [...new Set(visits.flatMap((v) => v.cylinders.map((c) => c.cylinder)))]
  for (const cylinder of numbers.sort((a, b) => a - b)) {
    const healthy = visits.flatMap((visit) => {
      const left = leftAs(visit, cylinder)
      const value = left?.healthy ? left.figures[figure] : undefined
      return (value && pointOf(figure, value)) ?? []
    })
    if (healthy.length > 0) points.set(cylinder, healthy)
  }
  return points
}

const healthyPoints = (visits: readonly Visit[], figure: Followed): Point[][] => [
  ...healthyByCylinder(visits, figure).values(),
]
