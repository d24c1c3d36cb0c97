import type { Recording } from '../../capture/capture.ts'
import { median } from '../../maths/median.ts'

/** Engine speed over time, from a slow trace or from the events of a long capture. */
export interface SpeedSeries {
  file: string
  /** s on the file's own clock, rising, shape (n). */
  timesS: Float64Array
  /** shape (n). */
  rpm: Float64Array
  /** A reading is the mean over this long to either side of its instant, s; 0 where not stated: a change shows so much earlier or later. */
  blurS?: number
}

/** Engine speed on even steps. */
export interface SpeedGrid {
  stepS: number
  /** Middle of the first step, s on the file's own clock. */
  firstS: number
  rpm: Float64Array
  /** 1 where the step holds a reading or a bridged gap of at most MAX_BRIDGED steps. */
  known: Uint8Array
}

/** Steps of 0.2 s: still five to the second, so that a swing of 1.5 Hz and an onset within 0.3 s show; noise averaged. */
const STEP_S = 0.2
/** Slower than a reading a second, the start of a response cannot be placed. */
export const SLOWEST_STEP_S = 1
const MAX_BRIDGED = 2
/** Revolutions a minute in one revolution a second. */
const RPM_PER_HZ = 60

/** The speed channel of a trace, readings that are no number left out; undefined where it has none. */
export function speedSeries(recording: Recording): SpeedSeries | undefined {
  const channel = recording.channels.find((c) => c.entry.carries === 'speed')
  if (!channel) return undefined
  const factor = channel.unit === 'Hz' ? RPM_PER_HZ : 1
  const timesS: number[] = []
  const rpm: number[] = []
  for (let i = 0; i < recording.rows; i++) {
    const value = channel.data[i]!
    if (!Number.isFinite(value)) continue
    timesS.push(recording.timesS ? recording.timesS[i]! : recording.startS + i * recording.sampleS)
    rpm.push(value * factor)
  }
  return { file: recording.file, timesS: Float64Array.from(timesS), rpm: Float64Array.from(rpm) }
}

/** Step the series supports, s: STEP_S, or its own spacing where that is wider; undefined below two readings. */
export function stepFor(series: SpeedSeries): number | undefined {
  const { timesS } = series
  if (timesS.length < 2) return undefined
  const gaps = Float64Array.from({ length: timesS.length - 1 }, (_, i) => timesS[i + 1]! - timesS[i]!)
  return Math.max(STEP_S, median(gaps)!)
}

/**
 * Means of the readings in every step. Steps without a reading are bridged by a straight line over at most two,
 * and unknown beyond (rpm there holds the last known value and is never used).
 */
export function toGrid(series: SpeedSeries, stepS: number): SpeedGrid {
  const { timesS, rpm } = series
  const start = timesS[0]!
  const n = Math.floor((timesS[timesS.length - 1]! - start) / stepS + 1e-6) + 1
  const sums = new Float64Array(n)
  const counts = new Uint32Array(n)
  for (let i = 0; i < timesS.length; i++) {
    const k = Math.min(n - 1, Math.floor((timesS[i]! - start) / stepS + 1e-6))
    sums[k]! += rpm[i]!
    counts[k]!++
  }
  const means = sums.map((s, i) => (counts[i]! > 0 ? s / counts[i]! : 0))
  const known = Uint8Array.from(counts, (c) => (c > 0 ? 1 : 0))
  bridge(means, known)
  return { stepS, firstS: start + stepS / 2, rpm: means, known }
}

/** Fills gaps in arrays made here, in place. */
function bridge(rpm: Float64Array, known: Uint8Array): void {
  let last = 0
  for (let i = 1; i < rpm.length; i++) {
    if (known[i] !== 1) continue
    const missing = i - last - 1
    for (let k = 1; k <= missing; k++) {
      rpm[last + k] =
        missing <= MAX_BRIDGED ? rpm[last]! + ((rpm[i]! - rpm[last]!) * k) / (missing + 1) : rpm[last]!
      if (missing <= MAX_BRIDGED) known[last + k] = 1
    }
    last = i
  }
}
