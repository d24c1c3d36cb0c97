import type { IdleModel } from './idle-model.ts'
import type { Prediction } from './prediction-equations.ts'
import { surpriseOf, type ResponseShape } from './response-shapes.ts'

/** The best-fitting response of one direction in one window. */
export interface Hit {
  /** Size over its standard error, 0 or more. */
  score: number
  /** Signed height of the response, rpm. */
  rpm: number
  /** Standard error of that height, rpm. */
  seRpm: number
  /** Onset, steps from the start of the spray (or of the pretended one). */
  onset: number
  lastsS: number
}
export interface WindowScan { up: Hit; down: Hit }

const NOTHING: Hit = { score: 0, rpm: 0, seRpm: Infinity, onset: 0, lastsS: 0 }
/** Part of a shape's weight that must lie on rows that may be used, or the shape is not tried there. */
const MIN_SEEN = 0.5

/** The stronger direction. */
export const stronger = (scan: WindowScan): Hit => (scan.up.score >= scan.down.score ? scan.up : scan.down)

/**
 * Largest standardised response, up and down, over all onsets of a window and all shapes: least squares of the
 * surprises on the shape's own surprises (a matched filter for noise that is even after prediction).
 *
 * @param surprise  rpm at a row, or undefined where the row may not be used
 * @param onsets    rows, and the row of the spray's start they are counted from
 */
export function scanWindow(
  surprise: (row: number) => number | undefined,
  onsets: { spray: number; from: number; to: number },
  patterns: readonly { lastsS: number; pattern: Float64Array }[],
  sigmaRpm: number,
): WindowScan {
  let up = NOTHING
  let down = NOTHING
  for (let row = onsets.from; row <= onsets.to; row++) {
    for (const { lastsS, pattern } of patterns) {
      const fit = fitPattern(surprise, row, pattern)
      if (!fit) continue
      const seRpm = sigmaRpm / Math.sqrt(fit.weight)
      const signed = fit.rpm / seRpm
      const hit: Hit = { score: Math.abs(signed), rpm: fit.rpm, seRpm, onset: row - onsets.spray, lastsS }
      if (signed > up.score) up = hit
      if (-signed > down.score) down = hit
    }
  }
  return { up, down }
}

/** Least squares of the surprises from a row on over one pattern; undefined where too little of it lies on usable rows. */
export function fitPattern(surprise: (row: number) => number | undefined, row: number, pattern: Float64Array) {
  let product = 0
  let weight = 0
  let whole = 0
  for (let i = 0; i < pattern.length; i++) {
    const w = pattern[i]!
    whole += w * w
    const e = surprise(row + i)
    if (e === undefined) continue
    product += w * e
    weight += w * w
  }
  return weight >= MIN_SEEN * whole && weight > 0 ? { rpm: product / weight, weight } : undefined
}

/** The shapes as the model sees them. */
export const patternsFor = (shapes: readonly ResponseShape[], { lags }: Prediction) =>
  shapes.map((shape) => ({ lastsS: shape.lastsS, pattern: surpriseOf(shape, lags) }))

/** Surprises of the grid, each computed once. */
export function surprisesOf(model: IdleModel, prediction: Prediction, may: (row: number) => boolean) {
  const kept = new Map<number, number | undefined>()
  return (row: number): number | undefined => {
    if (kept.has(row)) return kept.get(row)
    const value = row >= model.order && may(row) ? model.surprise(prediction, row) : undefined
    kept.set(row, value)
    return value
  }
}
