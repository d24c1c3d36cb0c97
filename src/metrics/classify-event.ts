import type { EventClass, EventFigures, MeasuredEvent } from './figures.ts'

/** Limits an event is classed by. */
export interface EventLimits {
  lateRisePct: number
  stubBurnMs: number
}

/** What of an event its class rests on. */
export type Classed = Pick<MeasuredEvent, 'kind' | 'flags' | 'figures' | 'topKv' | 'topLastsMs'>

/** A firing line stands near its top for less than this, ms; the half-wave of an open circuit, about 0.2 ms long, for more. */
const BREAKS_DOWN_WITHIN_MS = 0.03
/** The line after a breakdown stands below this share of its top; a half-wave falls gradually. */
const LINE_BELOW_TOP = 0.5

/** 95 %, two-sided, normal. */
const K95 = 1.96

/**
 * Shape of one event by its own figures: `lean`, `level` or `falling` only where the late rise is clear of the limit by
 * its own 95 % interval (instrument gain has no part in a ratio), `unclear` otherwise. An arc that lasts less than the
 * limit for a stub is the half-wave of an open circuit, not a spark line; one that follows a breakdown, and stands well
 * below it, burned and went out.
 */
export function classifyEvent(event: Classed, limits: EventLimits): EventClass {
  if (event.flags.includes('partial')) return 'unclear'
  if (event.kind === 'wasted') return 'wasted'
  if (!hasSparkLine(event.figures, limits)) return wentOut(event) ? 'went out' : 'no spark line'
  const rise = event.figures.lateRisePct
  if (!rise.ok) return 'unclear'
  const half = K95 * rise.u
  if (rise.value - half > limits.lateRisePct) return 'lean'
  if (rise.value + half < -limits.lateRisePct) return 'falling'
  return Math.abs(rise.value) + half <= limits.lateRisePct ? 'level' : 'unclear'
}

/** Something burns after the breakdown, for longer than a stub. */
function hasSparkLine({ burnMs }: EventFigures, limits: EventLimits): boolean {
  return burnMs.ok ? burnMs.value >= limits.stubBurnMs : burnMs.why !== 'no-spark-line'
}

/** Too short for a spark line, but the gap broke down and an arc stood after it. */
function wentOut({ figures: { burnMs, midKv }, topKv, topLastsMs }: Classed): boolean {
  if (!burnMs.ok || !midKv.ok || topKv === undefined || topLastsMs === undefined) return false
  return topLastsMs < BREAKS_DOWN_WITHIN_MS && midKv.value < LINE_BELOW_TOP * topKv
}
