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
export interface WindowScan {
  up: Hit
  down: Hit
}

const NOTHING: Hit = { score: 0, rpm: 0, seRpm: Infinity, onset: 0, lastsS: 0 }
/** Part of a shape's weight that must lie on rows that may be used, or the shape is not tried there. */
const MIN_SEEN = 0.5

/** The stronger direction. */
export const stronger = (scan: WindowScan): Hit => (scan.up.score >= scan.down.score ? scan.up : scan.down)

/** Surprises of a run of rows, rpm; NaN where a row may not be used. Every row a pattern can touch is there. */
export interface Surprises {
  first: number
  rpm: Float64Array
}

/** A shape as the model sees it, and its whole weight: the sum of its squares. */
export interface Pattern {
  lastsS: number
  pattern: Float64Array
  weight: number
}

/** Rows an onset may fall in, and the row of the spray's start they are counted from. */
export interface Onsets {
  spray: number
  from: number
  to: number
}

/**
 * Largest standardised response, up and down, over all onsets of a window and all shapes: least squares of the
 * surprises on the shape's own surprises (a matched filter for noise that is even after prediction).
 */
export function scanWindow(
  surprises: Surprises,
  onsets: Onsets,
  patterns: readonly Pattern[],
  sigmaRpm: number,
): WindowScan {
  if (!hasGap(surprises)) return scanWhole(surprises, onsets, patterns, sigmaRpm)
  let up = NOTHING
  let down = NOTHING
  const fit = { rpm: 0, weight: 0 }
  for (let row = onsets.from; row <= onsets.to; row++) {
    for (const shape of patterns) {
      fitPattern(surprises, row, shape, fit)
      if (fit.weight === 0) continue
      const hit = hitOf(fit, { sigmaRpm, onset: row - onsets.spray, lastsS: shape.lastsS })
      if (fit.rpm > 0 && hit.score > up.score) up = hit
      if (fit.rpm < 0 && hit.score > down.score) down = hit
    }
  }
  return { up, down }
}

function hitOf(
  { rpm, weight }: { rpm: number; weight: number },
  { sigmaRpm, onset, lastsS }: { sigmaRpm: number; onset: number; lastsS: number },
): Hit {
  const seRpm = sigmaRpm / Math.sqrt(weight)
  return { score: Math.abs(rpm) / seRpm, rpm, seRpm, onset, lastsS }
}

function hasGap({ rpm }: Surprises): boolean {
  for (let i = 0; i < rpm.length; i++) if (Number.isNaN(rpm[i])) return true
  return false
}

/** Onsets worked on side by side: sums that wait for each other take three times as long. */
const ABREAST = 4

/** The same where every row may be used, as in the two thousand shuffled windows of a trace; to the same bit. */
function scanWhole(
  { first, rpm }: Surprises,
  { spray, from, to }: Onsets,
  patterns: readonly Pattern[],
  sigmaRpm: number,
): WindowScan {
  const rows = to - from + 1
  const products = new Float64Array(rows)
  let [up, upRow, upShape] = [0, 0, -1]
  let [down, downRow, downShape] = [0, 0, -1]
  for (let s = 0; s < patterns.length; s++) {
    const { pattern, weight } = patterns[s]!
    const seRpm = sigmaRpm / Math.sqrt(weight)
    correlate(rpm, from - first, pattern, products)
    for (let k = 0; k < rows; k++) {
      const signed = products[k]! / weight / seRpm
      if (signed > up) {
        up = signed
        upRow = k
        upShape = s
      } else if (-signed > down) {
        down = -signed
        downRow = k
        downShape = s
      }
    }
  }
  const hit = (row: number, shape: number): Hit => {
    if (shape < 0) return NOTHING
    const { pattern, weight, lastsS } = patterns[shape]!
    correlate(rpm, from - first, pattern, products)
    return hitOf({ rpm: products[row]! / weight, weight }, { sigmaRpm, onset: from + row - spray, lastsS })
  }
  return { up: hit(upRow, upShape), down: hit(downRow, downShape) }
}

/** Sums of surprise times pattern with the pattern laid on from `at`, from `at` + 1, and so on; each in the order of its rows. */
function correlate(rpm: Float64Array, at: number, pattern: Float64Array, into: Float64Array): void {
  let k = 0
  for (; k + ABREAST <= into.length; k += ABREAST) {
    const from = at + k
    let a = 0
    let b = 0
    let c = 0
    let d = 0
    for (let i = 0; i < pattern.length; i++) {
      const w = pattern[i]!
      a += w * rpm[from + i]!
      b += w * rpm[from + i + 1]!
      c += w * rpm[from + i + 2]!
      d += w * rpm[from + i + 3]!
    }
    into[k] = a
    into[k + 1] = b
    into[k + 2] = c
    into[k + 3] = d
  }
  for (; k < into.length; k++) {
    let sum = 0
    for (let i = 0; i < pattern.length; i++) sum += pattern[i]! * rpm[at + k + i]!
    into[k] = sum
  }
}

/**
 * Least squares of the surprises from a row on over one pattern, into `fit`; weight 0 where too little of it lies on
 * usable rows. Asked two hundred thousand times a trace, so that a value of its own each time is felt.
 */
export function fitPattern(
  { first, rpm }: Surprises,
  row: number,
  shape: Pick<Pattern, 'pattern' | 'weight'>,
  fit: { rpm: number; weight: number },
): void {
  const { pattern } = shape
  let product = 0
  let weight = 0
  for (let i = 0; i < pattern.length; i++) {
    const w = pattern[i]!
    const e = rpm[row - first + i]!
    if (Number.isNaN(e)) continue
    product += w * e
    weight += w * w
  }
  const isSeen = weight >= MIN_SEEN * shape.weight && weight > 0
  fit.rpm = isSeen ? product / weight : 0
  fit.weight = isSeen ? weight : 0
}

/** A pattern with its weight. */
export const weighed = (pattern: Float64Array): Pick<Pattern, 'pattern' | 'weight'> => ({
  pattern,
  weight: pattern.reduce((sum, w) => sum + w * w, 0),
})

/** The shapes as the model sees them. */
export const patternsFor = (shapes: readonly ResponseShape[], { lags }: Prediction): Pattern[] =>
  shapes.map((shape) => ({ lastsS: shape.lastsS, ...weighed(surpriseOf(shape, lags)) }))

/** Rows of the longest of some shapes. */
export const longestOf = (shapes: readonly { height: Float64Array }[]): number =>
  Math.max(...shapes.map(({ height }) => height.length))

/** Surprises of the rows [from, to), each where it may be used. */
export function surprisesOf(
  model: IdleModel,
  prediction: Prediction,
  rows: { from: number; to: number },
  may: (row: number) => boolean,
): Surprises {
  const rpm = Float64Array.from({ length: rows.to - rows.from }, (_, i) => {
    const row = rows.from + i
    return row >= model.order && may(row) ? model.surprise(prediction, row) : NaN
  })
  return { first: rows.from, rpm }
}
