import type { EventFlag, EventWave } from '../ignition/event.ts'
import { absent } from '../units/measured.ts'
import { withBudget } from './budget.ts'
import type { EventFigure } from './figures.ts'
import { riseOf, standsOut } from './firing-rise.ts'

/** With fewer samples on the climb its own increment is no measure of its slope, and the event is flagged. */
export const LEAST_RISE_SAMPLES = 3
/** Doubt about the slope between the last sample and the collapse, as a share of the correction. */
const SLOPE_DOUBT = 0.12
/** The same where the climb's slope had to be borrowed from the capture's other events. */
const BORROWED_DOUBT = 0.25

/** What the events of one kind in a capture show together about the climb. */
export interface Climb {
  /** Increase over one sampling interval that lies wholly on the climb, kV per sample; undefined where none does. */
  stepKv: number | undefined
  /** Share of events whose first sample in the collapse is still the highest: how much of an interval a collapse lasts. */
  collapseShare: number
}

/**
 * Firing voltage: peak of the firing line, corrected for what falls between two samples.
 *
 * The line climbs until the gap breaks down and collapses within about a microsecond, so the highest sample is too
 * low, never too high. The breakdown comes at some moment between the last sample of the climb and the next, each
 * moment as likely as another. For the first 1 - c of that interval the next sample has fallen below the last of the
 * climb, for the rest, c, it is itself the highest; c is the share of such events in the capture. So the truth lies
 * evenly between the last sample and what the climb gains in 1 - c of an interval, or, for the others, between there
 * and the whole gain. The middle is the value (the bias is corrected); the even spread about it is the sampling part
 * of u; the doubt about the climb's slope is the method part.
 *
 * @param wave   one event
 * @param about  flags of the event, and what its capture shows of the climb; its step stands in for the event's own
 *               where that holds fewer than 3 samples
 * @returns      kV; u (k = 1). Gain is added per cylinder. Absent: `clipped`, `partial`, `under-sampled` where
 *               no sample caught the firing line, or no climb of the capture lasts a sampling interval.
 * @source       definition: shop-practice; even spread: JCGM 100:2008, 4.3.7; correction of a known bias: 3.2.4
 */
export function firingVoltageKv(wave: EventWave, about: { flags: readonly EventFlag[]; climb: Climb }): EventFigure<'kV'> {
  if (about.flags.includes('partial')) return absent('partial')
  if (about.flags.includes('clipped')) return absent('clipped')
  const rise = riseOf(wave)
  const few = rise.samples < LEAST_RISE_SAMPLES
  // A sampling interval longer than the whole climb says nothing about how far it went on.
  if (few && (about.climb.stepKv === undefined || !standsOut(wave))) return absent('under-sampled')
  const borrowed = few && about.climb.stepKv! > rise.stepKv
  const step = borrowed ? about.climb.stepKv! : rise.stepKv
  const top = wave.kv[rise.top]!
  const edge = top + (1 - about.climb.collapseShare) * step
  const low = rise.peakInCollapse ? Math.max(edge, wave.kv[wave.peak]!) : top
  const high = Math.max(low, rise.peakInCollapse ? top + step : edge)
  return withBudget((low + high) / 2, 'kV', [
    { source: 'noise', u: wave.noiseKv },
    { source: 'quantisation', u: wave.quantumKv / Math.sqrt(12) },
    { source: 'sampling', u: (high - low) / Math.sqrt(12) },
    { source: 'method', u: (borrowed ? BORROWED_DOUBT : SLOPE_DOUBT) * ((low + high) / 2 - top) },
  ])
}

/** True where the firing line holds too few samples to show its own height. */
export const isUnderSampled = (wave: EventWave): boolean => riseOf(wave).samples < LEAST_RISE_SAMPLES
