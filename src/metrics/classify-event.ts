import type { EventFlag } from '../ignition/event.ts'
import type { EventClass, EventFigures } from './figures.ts'

/** Limits an event is classed by. */
export interface EventLimits {
  lateRisePct: number
  stubBurnMs: number
}

/** 95 %, two-sided, normal. */
const K95 = 1.96

/**
 * Shape of one event by its own figures: `lean`, `level` or `falling` only where the late rise is clear of the limit by
 * its own 95 % interval (instrument gain has no part in a ratio), `unclear` otherwise. An arc that lasts less than the
 * limit for a stub is the half-wave of an open circuit, not a spark line.
 */
export function classifyEvent(
  event: { kind: 'firing' | 'wasted'; flags: readonly EventFlag[]; figures: EventFigures },
  limits: EventLimits,
): EventClass {
  if (event.flags.includes('partial')) return 'unclear'
  if (event.kind === 'wasted') return 'wasted'
  if (!hasSparkLine(event.figures, limits)) return 'no spark line'
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
