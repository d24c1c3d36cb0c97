import { mad, MAD_TO_SD } from '../maths/mad.ts'
import { robustLine } from '../maths/robust-line.ts'
import { blockMeans } from './block-means.ts'

/** Samples of a stretch and their places, both of shape (n). */
export interface Window {
  x: Float64Array
  y: Float64Array
}
/**
 * Value of a line at the place asked for, kV; its slope, kV per sample; standard uncertainty of the value, kV, by the
 * window's own residuals; and what independent samples of standard deviation 1 would leave in it.
 */
export interface LineFit {
  kv: number
  slope: number
  u: number
  ofIndependent: number
}

/** The starting line is drawn through at most this many block means. */
const START_BLOCKS = 20
/** Tukey's constant: 95 % efficient for normal noise, deaf to what lies 4.7 spreads off. */
const TUKEY = 4.685
const ROUNDS = 5
/** Blocks by whose means slow turbulence is told from the recorder's noise. */
const MEMORY_BLOCKS = 8

/**
 * Bisquare-weighted straight line: starts from the Theil-Sen line through block means, then weights every sample by
 * its distance from the line, so that spikes lose their say while all other samples are averaged.
 *
 * @param window  samples and their places
 * @param about   at: where the value is wanted, in places; floor: spread below which residuals say nothing, kV
 * @returns       undefined where the samples fix no line
 * @source        Beaton and Tukey 1974, Technometrics 16(2), 147-185
 */
export function weightedLine(
  window: Window,
  { at, floor }: { at: number; floor: number },
): LineFit | undefined {
  const blocks = blockMeans(window, START_BLOCKS)
  const start = robustLine(blocks.x, blocks.y)
  if (!start) return undefined
  let line = { slope: start.slope, kv: start.intercept + start.slope * at }
  const left = (): Float64Array => window.y.map((y, i) => y - line.kv - line.slope * (window.x[i]! - at))
  let sums: ReturnType<typeof weightedSums>
  const spread = Math.max(floor, MAD_TO_SD * mad(left())!)
  for (let round = 0; round < ROUNDS; round++) {
    const weights = left().map((r) => bisquare(r / (TUKEY * spread)))
    sums = weightedSums(window, weights, at)
    if (!sums) return undefined
    line = { slope: sums.slope, kv: sums.mean - sums.slope * sums.xMean }
  }
  const residuals = left()
  const ofIndependent = Math.sqrt(1 / sums!.weight + sums!.xMean ** 2 / sums!.sxx)
  return { ...line, ofIndependent, u: spread * memory(residuals) * ofIndependent }
}

const bisquare = (r: number): number => (Math.abs(r) >= 1 ? 0 : (1 - r * r) ** 2)

/** Weighted means and slope, x counted from `at`. */
function weightedSums(
  { x, y }: Window,
  weights: Float64Array,
  at: number,
): { weight: number; mean: number; xMean: number; sxx: number; slope: number } | undefined {
  let weight = 0,
    mean = 0,
    xMean = 0
  weights.forEach((w, i) => {
    weight += w
    mean += w * y[i]!
    xMean += w * (x[i]! - at)
  })
  if (!(weight > 0)) return undefined
  mean /= weight
  xMean /= weight
  let sxx = 0,
    sxy = 0
  weights.forEach((w, i) => {
    const dx = x[i]! - at - xMean
    sxx += w * dx * dx
    sxy += w * dx * (y[i]! - mean)
  })
  return sxx > 0 ? { weight, mean, xMean, sxx, slope: sxy / sxx } : undefined
}

/**
 * By how much a mean of these residuals is less sure than one of independent ones: the spread of block means against
 * what independent samples would give. The arc's turbulence is slower than the recorder and averages out less.
 */
function memory(residuals: Float64Array): number {
  const size = Math.floor(residuals.length / MEMORY_BLOCKS)
  if (size < 2) return 1
  const whole = residuals.subarray(0, size * MEMORY_BLOCKS)
  const blocks = blockMeans({ x: whole, y: whole }, MEMORY_BLOCKS).y
  const expected = rms(whole) / Math.sqrt(size)
  return expected > 0 ? Math.max(1, rms(blocks) / expected) : 1
}

const rms = (values: Float64Array): number =>
  Math.sqrt(values.reduce((total, v) => total + v * v, 0) / values.length)
