import { median } from '../maths/median.ts'
import { BLOCK_S } from './blocks.ts'
import { kinkCosts } from './kink-fit.ts'

/** What is needed to place one spark's end. Times in s on the samples' own clock (sample 0 = 0). */
export interface EndSamples {
  /** Upright kV, from within the spark line to the ring-down's second cycle. */
  kv: Float64Array
  sampleS: number
  /** Sample on the falling flank after the first ring peak, where the line is left for good. */
  flank: number
  /** Resting level, and the recorder's noise (its steps within), kV. */
  restKv: number
  noiseKv: number
}

/** One event's flank, and what every possible end before it would leave unexplained. */
export interface EndCosts {
  /** Instant at which the falling flank passes half the line's height, s. */
  halfwayS: number
  /** Height of the line's end, and of that instant, above rest, kV. */
  lineKv: number
  halfKv: number
  /** Height of the hook's top, kV. */
  topKv: number
  /** Cost of an end at `from + i * step` before that instant, in units of -log likelihood. */
  costs: Float64Array
  fromS: number
  stepS: number
}

/** Angles by which the arc's end may precede the top of the ring, rad: current left in the coil lifts the voltage first. */
export const LARGEST_LEAD = 1.25
/** Ends are tried so far apart, rad. */
export const LEAD_STEP = 0.02
/** Piece of spark line before the earliest end that the line is laid through. */
const LINE_BEFORE_S = 0.1e-3
/** The hook is followed down to this share of the line's height on the flank. */
const HOOK_TO = 0.8

/**
 * From the arc's end to half height on the flank, s: a ring of amplitude sqrt(line^2 + overshoot^2), the overshoot being
 * the current left times the ring's impedance.
 */
export function lead(
  { lineKv, halfKv }: Pick<EndCosts, 'lineKv' | 'halfKv'>,
  { omega, overshootKv }: { omega: number; overshootKv: number },
): number {
  return (
    (Math.atan2(overshootKv, lineKv) + Math.acos(Math.min(1, halfKv / Math.hypot(lineKv, overshootKv)))) /
    omega
  )
}

/** How unlikely each possible end is by the event's own samples. */
export function endCosts(event: EndSamples, omega: number): EndCosts | undefined {
  const { kv, sampleS, flank, restKv, noiseKv } = event
  const lineKv = lineBefore(event, omega) - restKv
  const halfKv = lineKv / 2
  const half =
    lineKv > 0 ? crossingBefore(kv, flank + Math.ceil(BLOCK_S / sampleS), restKv + halfKv) : undefined
  const to = half === undefined ? undefined : crossingBefore(kv, Math.ceil(half), restKv + HOOK_TO * lineKv)
  if (half === undefined || to === undefined) return undefined
  const heights = { lineKv, halfKv }
  const stepS = LEAD_STEP / omega
  const fromS = lead(heights, { omega, overshootKv: 0 })
  const toS = lead(heights, { omega, overshootKv: lineKv * Math.tan(LARGEST_LEAD) })
  const first = Math.max(0, Math.floor(half - (toS + LINE_BEFORE_S) / sampleS))
  const ends = Array.from(
    { length: Math.ceil((toS - fromS) / stepS) + 1 },
    (_, i) => half - (fromS + i * stepS) / sampleS - first,
  )
  const costs = kinkCosts(kv.subarray(first, Math.ceil(to)), ends, noiseKv)
  const topKv = topOf(kv.subarray(Math.max(0, Math.floor(half - toS / sampleS)), Math.ceil(half))) - restKv
  return { ...heights, topKv, halfwayS: half * sampleS, fromS, stepS, costs }
}

/** Highest mean of three neighbours: noise lifts a single sample. */
function topOf(kv: Float64Array): number {
  let top = kv[0] ?? 0
  for (let i = 1; i + 1 < kv.length; i++) top = Math.max(top, (kv[i - 1]! + kv[i]! + kv[i + 1]!) / 3)
  return top
}

/** The line's level shortly before any end it may have. */
function lineBefore({ kv, sampleS, flank }: EndSamples, omega: number): number {
  const to = flank - (LARGEST_LEAD + Math.PI / 2) / omega / sampleS
  return (
    median(kv.subarray(Math.max(0, Math.floor(to - LINE_BEFORE_S / sampleS)), Math.max(1, Math.ceil(to)))) ??
    0
  )
}

/** Fractional sample at which the samples, walked back from `from`, climb above a level; undefined where they do not. */
function crossingBefore(kv: Float64Array, from: number, level: number): number | undefined {
  for (let i = Math.min(from, kv.length - 1); i > 0; i--) {
    if (kv[i]! < level && kv[i - 1]! >= level) return i - 1 + (kv[i - 1]! - level) / (kv[i - 1]! - kv[i]!)
  }
  return undefined
}
