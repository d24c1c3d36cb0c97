import type { EventWave } from '../ignition/event.ts'

/** The climb to the firing voltage. */
export interface FiringRise {
  /** Last sample before the climb. */
  foot: number
  /** Last sample taken before the collapse. */
  top: number
  /** True where the sample after `top`, taken in the collapse, still reads higher. */
  peakInCollapse: boolean
  /** Samples on the climb above a tenth of the peak, up to and with `top`. */
  samples: number
  /** Increase over the last sampling interval of the climb, kV per sample. */
  stepKv: number
}

/** A climb does not slow down this fast: a last increment below this share of the one before is cut by the collapse. */
const CUT_SHARE = 0.75

/** A firing line must stand this far above the line that follows to be seen at all. */
const LEAST_EXCESS = 1.15

/** The climb of one event, read backwards from its highest sample. */
export function riseOf({ kv, peak }: EventWave): FiringRise {
  const tenth = 0.1 * kv[peak]!
  let foot = peak
  while (foot > 0 && kv[foot]! > tenth) foot--
  const lastStep = step(kv, peak)
  const before = step(kv, peak - 1)
  // Both samples must lie on the climb for their increments to tell.
  const peakInCollapse = peak - 2 >= foot && before > 0 && lastStep < CUT_SHARE * before
  const top = peakInCollapse ? peak - 1 : peak
  return { foot, top, peakInCollapse, samples: top - foot, stepKv: peakInCollapse ? before : Math.max(lastStep, 0) }
}

const step = (kv: Float64Array, at: number): number => (at > 0 ? kv[at]! - kv[at - 1]! : 0)

/** The highest sample is clear of the spark line after it: some sample caught the firing line. */
export function standsOut({ kv, peak, sparkEnd }: EventWave): boolean {
  if (sparkEnd === undefined) return true
  const after = kv[Math.min(kv.length - 1, Math.round(peak + 0.1 * (sparkEnd - peak)))]!
  return kv[peak]! > LEAST_EXCESS * after
}
