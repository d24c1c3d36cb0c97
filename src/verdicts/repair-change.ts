import { fisherExact, type Share } from '../maths/fisher-exact.ts'
import { hodgesLehmannShift } from '../maths/hodges-lehmann.ts'
import { median } from '../maths/median.ts'
import type { CylinderSummaries, MeasuredEvent } from '../metrics/figures.ts'
import { acrossRecorders } from './recorder-part.ts'
import type { OddKind } from './kinds/define-verdict.ts'
import { verdictOf } from './kinds/index.ts'
import type { VerdictName } from './verdict-names.ts'

/** One cylinder in one stage: its verdict, the events it rests on, turns that went by without one, and the figures with their budgets. */
export interface StageCylinder {
  verdict: VerdictName
  events: readonly MeasuredEvent[]
  missedTurns?: number
  figures?: CylinderSummaries
  /** False where a pickup of unknown ratio makes kV mean nothing. */
  kvKnown?: boolean
}

/** Least number of events a side for a shift; fewer give no distribution-free interval worth printing. */
export const MIN_EVENTS = 6
const MAX_EVENTS = 400

export interface ChangeLimits {
  /** Of one interval or test, so that the whole table holds at 95 %. */
  confidence: number
  /** Least change of the late rise that means something, %: two recordings of one engine are never quite alike. */
  leastShiftPct: number
  /** Before and after come from two recorders or settings of one. */
  twoRecorders: boolean
}

export const oddKind = (verdict: VerdictName): OddKind | undefined => verdictOf(verdict).repairs

/**
 * Which way a cylinder went in one respect: 1 towards order, -1 away from it, 0 where chance would explain it.
 * Verdicts alone do not tell: near a limit two recordings of one engine can fall on either side.
 */
export function wentTowardsOrder(
  kind: OddKind,
  before: StageCylinder,
  after: StageCylinder,
  limits: ChangeLimits,
): -1 | 0 | 1 {
  const { confidence, leastShiftPct, twoRecorders } = limits
  if (kind === 'firing')
    return fewerWithoutLine(shareWithoutLine(before), shareWithoutLine(after), 1 - confidence)
  const of = kind === 'mixture' ? lateRise : earlyDrop
  const x = valuesOf(before.events, of)
  const y = valuesOf(after.events, of)
  if (x.length < MIN_EVENTS || y.length < MIN_EVENTS) return 0
  const { shift: value, low: least, high: most } = hodgesLehmannShift(x, y, confidence)
  const shift = { value, low: least, high: most }
  const { low, high } =
    twoRecorders && kind === 'mixture'
      ? acrossRecorders(shift, 'lateRisePct', { before, after, confidence })
      : shift
  if (low <= 0 && high >= 0) return 0
  const nearer = kind === 'mixture' ? Math.abs(median(x)!) - Math.abs(median(y)!) : median(x)! - median(y)!
  return Math.abs(nearer) < leastShiftPct ? 0 : nearer > 0 ? 1 : -1
}

/** Figures of the firing events, evenly thinned: the shift looks at every pair of values, and long captures have thousands. */
export function valuesOf(
  events: readonly MeasuredEvent[],
  of: (event: MeasuredEvent) => number | undefined,
): Float64Array {
  const values = events.flatMap((e) => (e.kind === 'firing' ? (of(e) ?? []) : []))
  const count = Math.min(values.length, MAX_EVENTS)
  return Float64Array.from({ length: count }, (_, i) => values[Math.floor((i * values.length) / count)]!)
}

const lateRise = ({ figures: { lateRisePct } }: MeasuredEvent): number | undefined =>
  lateRisePct.ok ? lateRisePct.value : undefined

/** Fall over the first half, % of the start: what a resistance outside the cylinder steepens. */
const earlyDrop = ({ figures: { startKv, earlyChangeKv } }: MeasuredEvent): number | undefined =>
  startKv.ok && earlyChangeKv.ok && startKv.value > 0
    ? (-100 * earlyChangeKv.value) / startKv.value
    : undefined

function shareWithoutLine({ events, missedTurns = 0 }: StageCylinder): Share {
  const firing = events.filter((e) => e.kind === 'firing')
  return {
    hits: firing.filter((e) => e.class === 'no spark line').length + missedTurns,
    total: firing.length + missedTurns,
  }
}

function fewerWithoutLine(before: Share, after: Share, level: number): -1 | 0 | 1 {
  if (before.total === 0 || after.total === 0 || fisherExact(before, after) > level) return 0
  return before.hits / before.total > after.hits / after.total ? 1 : -1
}
