import type { EventFlag, EventWave } from '../ignition/event.ts'
import { nextCrossing } from '../maths/crossing.ts'
import { leastSquaresLine } from '../maths/least-squares-line.ts'
import { logDecrement } from '../maths/log-decrement.ts'
import { median } from '../maths/median.ts'
import { movingMean } from '../maths/moving-mean.ts'
import { absent } from '../units/measured.ts'
import { withBudget } from './budget.ts'
import type { EventFigure } from './figures.ts'
import { turningPoints } from './turning-points.ts'

/** Oscillations of the coil after spark end. */
export interface CoilRing {
  cycles: EventFigure<'cycles'>
  khz: EventFigure<'kHz'>
  damping: EventFigure<'1'>
}

/** A half swing counts from this height on, peak to peak: about what an eye still counts on a usual screen. */
const LEAST_SWING_KV = 0.3
/** ... or, where the pickup's ratio is not known, this share of the spark line's height: 0.3 kV beside a usual line of 1.6. */
const LEAST_SWING_SHARE = 0.19
/** Stretch of the burn in which the line's height is read. */
const LINE = { from: 0.3, to: 0.6 } as const
/** ... or from this many times what noise and steps leave on a crest, so that neither is ever counted. */
const LEAST_SWING_NOISES = 8
/** Crests are read off means over this time, a twentieth of a usual period, so that noise does not heighten them. */
const SMOOTHING_S = 20e-6
/** A swing longer than this many times the first is the slow return to rest, not the ringing. */
const LONGEST_SHARE = 1.6
/** Swings needed for a frequency and a decay. */
const LEAST_SWINGS = 3

/**
 * Coil oscillations after spark end: half swings of at least 0.3 kV peak to peak, halved to cycles; their frequency
 * from the instants at which they pass their middles; logarithmic decrement per cycle from their heights.
 *
 * @param wave   one event, long enough to hold the ringing, kV
 * @param flags  `partial` bars all three
 * @returns      u (k = 1): of the cycles, half a swing evenly spread where the last swing stands near the threshold; of
 *               kHz and damping, the scatter about their lines and the sampling. Clock error is added per cylinder.
 *               Absent: `partial`, `no-spark-line`, `not-visible` (fewer than 3 swings, for kHz and damping).
 * @source       definition: shop-practice; decrement: `logDecrement`; middles: IEEE Std 181-2011 (50 % instants)
 */
export function coilRing(wave: EventWave, flags: readonly EventFlag[]): CoilRing {
  const why = flags.includes('partial')
    ? 'partial'
    : wave.sparkEnd === undefined
      ? 'no-spark-line'
      : undefined
  if (why) return { cycles: absent(why), khz: absent(why), damping: absent(why) }
  const width = Math.max(1, Math.round(SMOOTHING_S / wave.sampleS))
  const kv = movingMean(wave.kv.subarray(Math.floor(wave.sparkEnd!)), width)
  const sampleU = Math.hypot(wave.noiseKv, wave.quantumKv / Math.sqrt(12)) / Math.sqrt(width)
  const turns = ringTurns(kv, Math.max(leastSwing(wave), LEAST_SWING_NOISES * sampleU))
  const swings = turns.slice(1).map((at, k) => Math.abs(kv[at]! - kv[turns[k]!]!))
  const cycles = withBudget(swings.length / 2, 'cycles', [{ source: 'method', u: 0.5 / Math.sqrt(12) }])
  if (swings.length < LEAST_SWINGS)
    return { cycles, khz: absent('not-visible'), damping: absent('not-visible') }
  return { cycles, khz: frequencyKhz(kv, turns, wave.sampleS), damping: decay(swings, sampleU) }
}

/** Height from which a half swing counts, in the wave's own unit. */
function leastSwing({ kv, breakdown, sparkEnd, ratioUnknown }: EventWave): number {
  if (!ratioUnknown) return LEAST_SWING_KV
  const burn = sparkEnd! - breakdown
  const line = kv.subarray(Math.floor(breakdown + LINE.from * burn), Math.ceil(breakdown + LINE.to * burn))
  return LEAST_SWING_SHARE * (median(line) ?? 0)
}

/** Turning points of the coil's own ringing: from its first crest on, until a swing takes too long to be one of it. */
function ringTurns(kv: Float64Array, threshold: number): number[] {
  const all = turningPoints(kv, 0, threshold)
  // Before the first crest the arc goes out; that rise is not the coil's.
  const turns = all.length > 1 && kv[all[0]!]! < kv[all[1]!]! ? all.slice(1) : all
  const longest = Math.round(LONGEST_SHARE * (turns[1]! - turns[0]!))
  const slow = turns.findIndex((at, k) => k > 0 && at - turns[k - 1]! > longest)
  if (slow < 0) return turns
  const kept = turns.slice(0, slow)
  const within = kv.subarray(kept.at(-1)!, kept.at(-1)! + longest)
  const falling = kv[turns[slow]!]! < kv[kept.at(-1)!]!
  const far = within.reduce((best, v, i) => ((falling ? v < within[best]! : v > within[best]!) ? i : best), 0)
  return Math.abs(within[far]! - within[0]!) >= threshold ? [...kept, kept.at(-1)! + far] : kept
}

/** Half periods from a straight line through the instants of the middles. */
function frequencyKhz(kv: Float64Array, turns: readonly number[], sampleS: number): EventFigure<'kHz'> {
  const middles = turns.slice(1).map((to, k) => middleOf(kv, turns[k]!, to))
  const line = leastSquaresLine(
    middles.map((_, k) => k),
    middles,
  )!
  const samplesU = Math.hypot(line.slopeSd ?? 0, Math.sqrt(1 / 6) / (middles.length - 1))
  const khz = 1 / (2 * line.slope * sampleS * 1000)
  return withBudget(khz, 'kHz', [{ source: 'sampling', u: (khz * samplesU) / line.slope }])
}

/** Instant at which a swing passes half its height, fractional sample. */
function middleOf(kv: Float64Array, from: number, to: number): number {
  const half = (kv[from]! + kv[to]!) / 2
  return nextCrossing(kv.subarray(from, to + 1), half)!.index + from
}

/** Decrement of half swings, doubled to a whole cycle. */
function decay(swings: readonly number[], sampleU: number): EventFigure<'1'> {
  const half = logDecrement(swings)!
  // A height is the difference of two samples; the smallest weighs most.
  const noise = (2 * Math.SQRT2 * sampleU) / (Math.min(...swings) * (swings.length - 1))
  return withBudget(2 * half.delta, '1', [
    { source: 'noise', u: noise },
    { source: 'method', u: 2 * (half.sd ?? 0) },
  ])
}
