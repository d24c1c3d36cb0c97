import { median } from '../maths/median.ts'
import type { SampleRange } from './event.ts'

/** Share of the values that must lie closest together. A record may be busy (dwell, spark, ring) for most of its time. */
const DENSEST_SHARE = 0.25
/** The densest quarter is taken for rest while it lies within this share of the values' spread from their mean. */
const MOST_OFF_MEAN = 0.12
/** Values looked at: enough for a level, few enough to sort. */
const MOST_VALUES = 600
/** Stretches and their length over which the noise is taken. */
const NOISE_STRETCHES = 64
const NOISE_SAMPLES = 96

/**
 * The level a channel rests at: middle of the shortest interval that holds a quarter of the values. The rest between
 * events is flat, dwell and spark line slope, so the densest quarter is the rest even where it is not the longest. An
 * engine so fast that its coil never rests has the quarter in its dwell; a coil's voltage averages out to nothing over
 * a cycle, but for its losses, so there the mean is nearer.
 *
 * @param means  block means, any unit
 * @returns      in that unit; undefined for an empty range
 * @source       shortest-half location (Andrews et al. 1972), with a quarter in place of the half
 */
export function quietLevel(means: Float32Array, { from, to }: SampleRange): number | undefined {
  const first = Math.max(0, from)
  const last = Math.min(means.length, to)
  const step = Math.max(1, Math.ceil((last - first) / MOST_VALUES))
  if (last <= first) return undefined
  const rising = new Float32Array(Math.ceil((last - first) / step))
  for (let i = 0; i < rising.length; i++) rising[i] = means[first + i * step]!
  rising.sort()
  const held = Math.max(1, Math.ceil(rising.length * DENSEST_SHARE))
  let best = 0
  for (let i = 0; i + held - 1 < rising.length; i++) {
    if (rising[i + held - 1]! - rising[i]! < rising[best + held - 1]! - rising[best]!) best = i
  }
  const densest = rising[best + (held >> 1)]!
  const mean = rising.reduce((a, b) => a + b, 0) / rising.length
  const spread =
    rising[Math.floor(0.99 * (rising.length - 1))]! - rising[Math.ceil(0.01 * (rising.length - 1))]!
  return Math.abs(densest - mean) > MOST_OFF_MEAN * spread ? mean : densest
}

/**
 * Standard deviation of white noise: median over short stretches of the rms difference of neighbours over root two.
 * Slow changes (drift, hum, the burn itself) cancel in the difference, busy stretches in the median.
 */
export function noiseSd(data: ArrayLike<number>): number {
  const length = Math.min(NOISE_SAMPLES, data.length)
  const stretches = Math.max(1, Math.min(NOISE_STRETCHES, Math.floor(data.length / length)))
  const found: number[] = []
  for (let s = 0; s < stretches; s++) {
    const from = Math.floor((s * (data.length - length)) / stretches)
    let sum = 0
    for (let i = from + 1; i < from + length; i++) sum += (data[i]! - data[i - 1]!) ** 2
    if (length > 1) found.push(Math.sqrt(sum / (length - 1) / 2))
  }
  return median(found) ?? 0
}
