import type { EventFlag, EventWave } from '../ignition/event.ts'
import { absent } from '../units/measured.ts'
import { withBudget } from './budget.ts'
import { gainAt, type ClimbGain } from './climb-gain.ts'
import type { Climb } from './climb-of.ts'
import type { EventFigure } from './figures.ts'
import { LEAST_RISE_SAMPLES, riseOf, standsOut, type FiringRise } from './firing-rise.ts'

/**
 * Doubt about the gain of an interval, as a share of it, where the capture does not show how the climb's slope
 * changes: the first part of the coil's own swing, it starts slowly and slows down again. The gain seen is off by up to
 * an eighth either way, evenly.
 * @source JCGM 100:2008, 4.3.7
 */
const UNKNOWN_SLOPE = 0.125 / Math.sqrt(3)
/** An event's own increment below this share of the capture's is no climb but something slower. */
const LEAST_OWN_SHARE = 0.3

/**
 * Firing voltage: peak of the firing line, corrected for what falls between two samples.
 *
 * The line climbs until the gap breaks down and collapses within about a microsecond, so the highest sample is too
 * low, never too high. The breakdown comes at some moment between the last sample of the climb and the next, each
 * moment as likely as another. For the first 1 - c of that interval the next sample has fallen below the last of the
 * climb, for the rest, c, it is itself the highest; c is the share of such events in the capture. So the truth lies
 * evenly between the last sample and what the climb gains in 1 - c of an interval, or, for the others, between there
 * and the whole gain. The middle is the value (the bias is corrected); the even spread about it is the sampling part
 * of u; the doubt about the gain is the method part.
 *
 * The gain is that of the capture's climbs at the level of the last sample (`climbGain`).
 *
 * @param wave   one event
 * @param about  flags of the event, and what its capture shows of the climb
 * @returns      kV; u (k = 1). Instrument's gain is added per cylinder. Absent: `clipped`, `partial`, `under-sampled`
 *               where the climb holds too few samples (flag `under_sampled`), none caught the firing line, or no climb of
 *               the capture lasts a sampling interval: its highest sample is then a lower bound, and nothing else is known.
 * @source       definition: shop-practice; even spread: JCGM 100:2008, 4.3.7; correction of a known bias: 3.2.4
 */
export function firingVoltageKv(
  wave: EventWave,
  about: { flags: readonly EventFlag[]; climb: Climb },
): EventFigure<'kV'> {
  if (about.flags.includes('partial')) return absent('partial')
  if (about.flags.includes('clipped')) return absent('clipped')
  if (about.flags.includes('under_sampled')) return absent('under-sampled')
  const shown = about.climb.gain
  const rise = riseOf(wave, shown)
  // A sampling interval longer than the climbs says nothing about how far they went on.
  if (shown === undefined || !isCaught(wave, rise, shown)) return absent('under-sampled')
  const top = wave.kv[rise.top]!
  const gain = gainFrom(top, rise, shown)
  const edge = top + (1 - about.climb.collapseShare) * gain.kv
  const low = rise.peakInCollapse ? Math.max(edge, wave.kv[wave.peak]!) : top
  const high = rise.peakInCollapse ? top + gain.kv : edge
  return withBudget((low + high) / 2, 'kV', [
    { source: 'noise', u: wave.noiseKv },
    { source: 'quantisation', u: wave.quantumKv / Math.sqrt(12) },
    { source: 'sampling', u: (high - low) / Math.sqrt(12) },
    { source: 'method', u: (gain.u / gain.kv) * ((low + high) / 2 - top) },
  ])
}

/** True where the firing line holds too few samples to show its own height. */
export const isUnderSampled = (wave: EventWave): boolean => riseOf(wave).samples < LEAST_RISE_SAMPLES

/** Some sample caught the firing line. One hardly above its spark line is told from a hump of the dwell by its slope. */
function isCaught(wave: EventWave, rise: FiringRise, gain: ClimbGain): boolean {
  return (
    standsOut(wave) || (rise.samples >= LEAST_RISE_SAMPLES && rise.stepKv >= LEAST_OWN_SHARE * gain.gainKv)
  )
}

/** What the climb gains in one interval from a level on, kV, with its standard uncertainty. */
function gainFrom(top: number, rise: FiringRise, gain: ClimbGain): { kv: number; u: number } {
  const { kv, beyondKv } = gainAt(gain, top)
  return {
    kv,
    u: Math.hypot(
      gain.gainU,
      gain.slopeU * (top - gain.middleKv),
      beyondKv / Math.sqrt(12),
      gain.slopeSeen ? 0 : UNKNOWN_SLOPE * kv,
      // By how much the answer moves with the method: the event's own increment would do as well.
      rise.samples < LEAST_RISE_SAMPLES ? 0 : (rise.stepKv - kv) / Math.sqrt(12),
    ),
  }
}
