import { limit, type Limits } from '../../limits/limits.ts'
import { median } from '../../maths/median.ts'
import { normalQuantile } from '../../maths/normal.ts'
import type { Available } from '../evidence.ts'
import { absent, type Interval } from '../../units/measured.ts'
import { levelFellows } from './level-fellows.ts'

/** Late rise of one cylinder and its own standard uncertainty, % (points). */
export interface OwnRise {
  cylinder: number
  pct: number
  u: number
}

/** Against the level ones among the other cylinders of the capture. */
export interface AgainstFellows {
  /** Points of late rise; held at 95 % over all cylinders of the capture together. Absent without a fellow. */
  difference: Available
  /** The fellows lie inside the limits themselves. */
  fellowsLevel: boolean
}

/** sqrt(pi / 2): the median of several normal values scatters so much more than their mean. */
const MEDIAN_SPREAD = Math.sqrt(Math.PI / 2)

/**
 * Late rise of every cylinder against its fellows, the error rate held over the engine by Bonferroni's rule. Where
 * it is open which group is the level one the interval spans both comparisons.
 */
export function riseAgainstFellows(
  rises: readonly OwnRise[],
  limits: Limits,
): ReadonlyMap<number, AgainstFellows> {
  const byCylinder = new Map(rises.map((r) => [r.cylinder, r]))
  const { groups, level } = levelFellows(new Map(rises.map((r) => [r.cylinder, r.pct])), {
    limitPct: limit(limits, 'lateRisePct'),
    gapPct: limit(limits, 'fellowsGapPct'),
  })
  const z = normalQuantile(1 - 0.025 / Math.max(1, rises.length))
  return new Map(
    rises.map((own) => {
      const intervals = groups
        .map((group) => group.filter((c) => c !== own.cylinder).map((c) => byCylinder.get(c)!))
        .filter((fellows) => fellows.length > 0)
        .map((fellows) => differenceOf(own, fellows, z))
      return [own.cylinder, { difference: hull(intervals), fellowsLevel: level }]
    }),
  )
}

function differenceOf(own: OwnRise, fellows: readonly OwnRise[], z: number): Interval<'%'> {
  const value = own.pct - median(fellows.map((f) => f.pct))!
  const meanU = Math.hypot(...fellows.map((f) => f.u)) / fellows.length
  const reach = z * Math.hypot(own.u, fellows.length > 2 ? MEDIAN_SPREAD * meanU : meanU)
  return { value, low: value - reach, high: value + reach, unit: '%' }
}

function hull(intervals: readonly Interval<'%'>[]): Available {
  const nearest = intervals.toSorted((a, b) => Math.abs(a.value) - Math.abs(b.value))[0]
  if (!nearest) return absent('not-applicable')
  return {
    ok: true,
    interval: {
      value: nearest.value,
      low: Math.min(...intervals.map((i) => i.low)),
      high: Math.max(...intervals.map((i) => i.high)),
      unit: '%',
    },
  }
}
