import type { IgnitionEvent } from '../ignition/event.ts'
import { climbGain, type ClimbGain, type ClimbStep } from './climb-gain.ts'
import { LEAST_RISE_SAMPLES, riseOf, standsOut } from './firing-rise.ts'

/** What the events of one kind in a capture show together about the climb. */
export interface Climb {
  /** Gain of one sampling interval on the climb; undefined where hardly any interval lies wholly on one. */
  gain: ClimbGain | undefined
  /** Share of events whose first sample in the collapse is still the highest: how much of an interval a collapse lasts. */
  collapseShare: number
}

/** Fewest events from which the share of the collapse is taken. */
const LEAST_EVENTS = 5
/** Share of an interval taken up by the collapse where too few climbs show it. */
const UNKNOWN_COLLAPSE = 0.1
/**
 * Where the recorder misses the firing line of a larger share of events, those it caught are no fair sample. One
 * cylinder of three may have a plug that fires too low to stand out.
 */
const MOST_MISSED = 0.4

/**
 * What the events of a capture show together about the climb to the firing voltage, one kind at a time: the same coil
 * and the same stray capacitance climb along much the same curve every time, whatever voltage they reach.
 */
export function climbOf(events: readonly IgnitionEvent[]): Climb {
  const whole = events.filter((e) => !e.flags.includes('partial') && !e.flags.includes('clipped'))
  const caught = whole.filter((e) => standsOut(e.wave))
  const fair = whole.length - caught.length <= MOST_MISSED * whole.length
  // Each climb by itself first; what they show together then tells better which highest sample lies in the collapse.
  const first = fair ? climbGain(caught.flatMap((e) => stepsOf(e))) : undefined
  const seen = caught.map((e) => riseOf(e.wave, first)).filter((r) => r.samples >= LEAST_RISE_SAMPLES)
  return {
    gain: first && climbGain(caught.flatMap((e) => stepsOf(e, first))),
    collapseShare:
      seen.length >= LEAST_EVENTS
        ? seen.filter((r) => r.peakInCollapse).length / seen.length
        : UNKNOWN_COLLAPSE,
  }
}

/** Successive samples of one climb, both in its upper nine tenths. */
function stepsOf({ wave: { kv }, wave }: IgnitionEvent, gain?: ClimbGain): ClimbStep[] {
  const { foot, top } = riseOf(wave, gain)
  return Array.from({ length: Math.max(0, top - foot - 1) }, (_, i) => {
    const at = foot + 1 + i
    return { fromKv: kv[at]!, gainKv: kv[at + 1]! - kv[at]! }
  })
}
