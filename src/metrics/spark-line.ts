import type { EventFlag, EventWave } from '../ignition/event.ts'
import { absent, type AbsenceCode } from '../units/measured.ts'

/** The burn of one event, ready to be measured. Indices are fractional samples of `wave.kv`. */
export interface SparkLine {
  ok: true
  wave: EventWave
  from: number
  to: number
  /** Standard uncertainty of the spark end and of the breakdown, samples (sampling and picking). */
  endU: number
}

/** Nothing before this share of the burn counts: the pickup still rings from the breakdown. */
export const FIRST_SHARE = 0.04
/** Nothing after this share counts: a healthy line ends in a hook of its own. */
export const LAST_SHARE = 0.92

/** Below this many samples no three levels can be told apart. */
const LEAST_SAMPLES = 12

/** Half a sample of doubt about what happened between two samples, as an even spread. @source JCGM 100:2008, 4.3.7 */
const INSTANT_U_SAMPLES = 1 / Math.sqrt(12)

/** Spread of the picked spark end, ms: an arc goes out over some tens of microseconds, not at an instant. */
export const PICKING_SPREAD_MS = 0.003
/**
 * By how much the end is picked too early, ms: the line bends upward before the arc goes out, and the last of that bend
 * is taken for the hook. Between -1 and 2 microseconds in three simulations that share nothing.
 */
export const PICKED_EARLY_MS = 0.001

/**
 * The spark line of an event, or why it has none that can be measured.
 *
 * @param flags  of the event: `partial` and `line_clipped` bar the line
 */
export function sparkLineOf(
  wave: EventWave,
  flags: readonly EventFlag[],
): SparkLine | { ok: false; why: AbsenceCode } {
  if (flags.includes('partial')) return absent('partial')
  if (wave.sparkEnd === undefined) return absent('no-spark-line')
  if (flags.includes('line_clipped')) return absent('clipped')
  if (wave.sparkEnd - wave.breakdown < LEAST_SAMPLES) return absent('too-short')
  const spread = PICKING_SPREAD_MS / (wave.sampleS * 1000)
  return {
    ok: true,
    wave,
    from: wave.breakdown,
    to: wave.sparkEnd,
    endU: Math.hypot(INSTANT_U_SAMPLES, spread),
  }
}

/** Length of the burn, ms. */
export const burnLengthMs = (line: SparkLine): number => (line.to - line.from) * line.wave.sampleS * 1000
