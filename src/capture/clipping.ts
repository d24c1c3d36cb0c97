import type { Channel } from './capture.ts'
import type { ValueRange } from './collect.ts'
import { isFlatTop } from './flat-tops.ts'

/** The recorder's range as one channel shows it, and the samples at its ends. */
export interface Clipping {
  limits: Channel['limits']
  limitsFrom: Channel['limitsFrom']
  clippedSamples: number
}

/** What is known of a channel before its clipping is looked for. */
export interface ClippingQuestion {
  range: ValueRange
  /** Declared range in the unit of the data, low first. */
  declared: readonly [number, number] | undefined
  /** Smallest step of the data, same unit; 0 where none shows. */
  step: number
  /** Whether flat tops mean a limit: not where a signal is flat by nature, as a sync pulse or an engine speed. */
  inferred: boolean
}

/**
 * Limits of a channel: declared, else the words for clipped samples, else flat tops.
 * An end where nothing shows is infinite, so that comparing with it is always right.
 *
 * @param data  shape (rows); infinities are clipped samples marked by words
 */
export function findClipping(data: Float32Array, question: ClippingQuestion): Clipping {
  const { range, declared, step } = question
  if (declared) return counted(data, { limits: declared, limitsFrom: 'declared', step })
  if (range.lowMarks + range.highMarks > 0) {
    const limits = [
      range.lowMarks > 0 ? range.low : -Infinity,
      range.highMarks > 0 ? range.high : Infinity,
    ] as const
    return counted(data, { limits, limitsFrom: 'over-range words', step })
  }
  const none: Clipping = { limits: undefined, limitsFrom: 'none', clippedSamples: 0 }
  if (!question.inferred || !(range.high > range.low)) return none
  const tolerance = step > 0 ? step : (range.high - range.low) * 1e-6
  const about = { step: tolerance, stretches: range.stretches }
  const top = isFlatTop(data, { ...about, extreme: range.high, sign: 1 })
  const bottom = isFlatTop(data, { ...about, extreme: range.low, sign: -1 })
  if (!top && !bottom) return none
  return counted(data, {
    limits: [bottom ? range.low : -Infinity, top ? range.high : Infinity],
    limitsFrom: 'flat tops',
    step,
  })
}

/**
 * Puts the limit in place of every sample marked as clipped by a word.
 * @param data  shape (rows); changed in place, by the one who made it
 */
export function settleMarked(data: Float32Array, range: ValueRange, limits: Channel['limits']): void {
  if (range.lowMarks + range.highMarks === 0) return
  const low = limits && Number.isFinite(limits[0]) ? limits[0] : range.low
  const high = limits && Number.isFinite(limits[1]) ? limits[1] : range.high
  for (let i = 0; i < data.length; i++) {
    if (data[i] === Infinity) data[i] = high
    else if (data[i] === -Infinity) data[i] = low
  }
}

function counted(
  data: Float32Array,
  about: { limits: readonly [number, number]; limitsFrom: Channel['limitsFrom']; step: number },
): Clipping {
  const [low, high] = [about.limits[0] + about.step / 2, about.limits[1] - about.step / 2]
  let clippedSamples = 0
  for (let i = 0; i < data.length; i++) if (data[i]! <= low || data[i]! >= high) clippedSamples++
  return { limits: about.limits, limitsFrom: about.limitsFrom, clippedSamples }
}
