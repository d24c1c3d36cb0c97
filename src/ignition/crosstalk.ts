import type { IgnitionEvent } from './event.ts'

/** A neighbour's breakdown this near to an event's own is its partner on the same coil, not a disturbance. */
const SAME_COIL_S = 0.1e-3
/** The neighbour's trace is looked for this far about its breakdown. */
const ABOUT_S = 40e-6
/** It shows where the line jumps by this share of its level, over noise and steps. */
const LEAST_SHARE = 0.1

/**
 * Marks events in whose burn another pickup's breakdown leaves a trace.
 *
 * @param events  of all channels, in order of time; not changed
 */
export function markCrosstalk(events: readonly IgnitionEvent[]): IgnitionEvent[] {
  return events.map((event, i) => {
    const within = (o: IgnitionEvent): boolean =>
      o.channel !== event.channel &&
      event.endS !== undefined &&
      o.breakdownS > event.breakdownS + SAME_COIL_S &&
      o.breakdownS < event.endS - ABOUT_S
    // Burns are short beside the interval between firings: only the next few events can fall into this one.
    const disturbed = events.slice(i + 1, i + 17).some((o) => within(o) && jumpsAt(event, o.breakdownS))
    return disturbed ? { ...event, flags: [...event.flags, 'crosstalk'] } : event
  })
}

function jumpsAt({ wave, breakdownS }: IgnitionEvent, atS: number): boolean {
  const { kv, breakdown, sampleS, noiseKv, quantumKv } = wave
  const at = breakdown + (atS - breakdownS) / sampleS
  const reach = Math.max(2, ABOUT_S / sampleS)
  const near = kv.subarray(Math.max(0, Math.floor(at - reach)), Math.ceil(at + reach))
  if (near.length === 0) return false
  const low = near.reduce((a, b) => Math.min(a, b), Infinity)
  const high = near.reduce((a, b) => Math.max(a, b), -Infinity)
  return high - low > (LEAST_SHARE * (high + low)) / 2 + 6 * noiseKv + 2 * quantumKv
}
