import type { EventWave } from '../ignition/event.ts'
import { median } from '../maths/median.ts'
import { gainAt, type ClimbGain } from './climb-gain.ts'

/** The climb to the firing voltage. */
export interface FiringRise {
  /** Last sample before the climb. */
  foot: number
  /** Last sample taken before the collapse. */
  top: number
  /** True where the sample after `top`, taken in the collapse, still reads higher. */
  peakInCollapse: boolean
  /** Samples in the upper nine tenths of the climb, up to and with `top`. */
  samples: number
  /** Increase over the last sampling interval of the climb, kV per sample. */
  stepKv: number
}

/** With fewer samples on the climb its own increment is no measure of its slope, and the event is flagged. */
export const LEAST_RISE_SAMPLES = 3

/** Stretch before the peak in which the level before the climb is read, s: longer ago than any climb lasts. */
const BEFORE_S = { from: 0.2e-3, to: 0.05e-3 } as const

/**
 * A climb does not slow down this fast: a last increment below this share of what the capture's climbs gain there, or
 * of the one before where that is not known, is cut by the collapse.
 */
const CUT_SHARE = 0.75

/** A firing line must stand this far above the line that follows to be seen at all. */
const LEAST_EXCESS = 1.15

/** The climb of one event, read backwards from its highest sample; `gain`: of its capture's climbs, where known. */
export function riseOf({ kv, peak, sampleS }: EventWave, gain?: ClimbGain): FiringRise {
  const before = levelBefore(kv, peak, sampleS)
  const tenth = before + 0.1 * (kv[peak]! - before)
  let foot = peak
  while (foot > 0 && kv[foot]! > tenth) foot--
  const lastStep = step(kv, peak)
  const stepBefore = step(kv, peak - 1)
  // Both samples must lie on the climb for their increments to tell.
  const usual = gain ? gainAt(gain, kv[peak - 1]!).kv : stepBefore
  const peakInCollapse = peak - 2 >= foot && stepBefore > 0 && lastStep < CUT_SHARE * usual
  const top = peakInCollapse ? peak - 1 : peak
  return {
    foot,
    top,
    peakInCollapse,
    samples: top - foot,
    stepKv: peakInCollapse ? stepBefore : Math.max(lastStep, 0),
  }
}

/** Level the climb starts from, kV: late dwell is not at rest in every system. Zero where the wave starts too late. */
function levelBefore(kv: Float64Array, peak: number, sampleS: number): number {
  const from = Math.max(0, peak - Math.ceil(BEFORE_S.from / sampleS))
  return median(kv.subarray(from, Math.max(from, peak - Math.ceil(BEFORE_S.to / sampleS)))) ?? 0
}

const step = (kv: Float64Array, at: number): number => (at > 0 ? kv[at]! - kv[at - 1]! : 0)

/** The highest sample is clear of the spark line after it: some sample caught the firing line. */
export function standsOut({ kv, peak, sparkEnd }: EventWave): boolean {
  if (sparkEnd === undefined) return true
  const after = kv[Math.min(kv.length - 1, Math.round(peak + 0.1 * (sparkEnd - peak)))]!
  return kv[peak]! > LEAST_EXCESS * after
}
