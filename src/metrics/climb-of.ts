import type { IgnitionEvent } from '../ignition/event.ts'
import { median } from '../maths/median.ts'
import { riseOf, standsOut } from './firing-rise.ts'
import { LEAST_RISE_SAMPLES, type Climb } from './firing-voltage.ts'

/** Fewest events from which a typical climb is taken. */
const LEAST_EVENTS = 5
/** Share of an interval taken up by the collapse where too few climbs show it. */
const UNKNOWN_COLLAPSE = 0.1

/**
 * What the events of a capture show together about the climb to the firing voltage, one kind at a time: the same coil
 * and the same stray capacitance climb at much the same rate every time, whatever voltage they reach.
 */
export function climbOf(events: readonly IgnitionEvent[]): Climb {
  const rises = events.filter((e) => !e.flags.includes('partial') && standsOut(e.wave)).map((e) => riseOf(e.wave))
  if (rises.length === 0) return { stepKv: undefined, collapseShare: UNKNOWN_COLLAPSE }
  const whole = rises.filter((r) => r.samples >= 2).map((r) => r.stepKv)
  const seen = rises.filter((r) => r.samples >= LEAST_RISE_SAMPLES)
  return {
    stepKv: whole.length >= LEAST_EVENTS ? median(whole) : undefined,
    collapseShare: seen.length >= LEAST_EVENTS
      ? seen.filter((r) => r.peakInCollapse).length / seen.length
      : UNKNOWN_COLLAPSE,
  }
}
