import { mad, MAD_TO_SD } from '../maths/mad.ts'
import { stepUncertainty } from '../maths/quantisation.ts'
import { robustLine } from '../maths/robust-line.ts'
import type { BudgetLine } from './figures.ts'
import { blockMeans } from './block-means.ts'
import type { SparkLine } from './spark-line.ts'

/** Level of the spark line at one point, kV, with its uncertainty and the slope there, kV per sample. */
export interface LocalLevel { kv: number; slope: number; budget: BudgetLine[] }

/** How a spark line bends. */
export interface Bend {
  /** Second derivative, kV per sample squared, where the bend is spread over the line. */
  curvature: number
  /** Change of slope, kV per sample, where it may come all at once at the very point (a lean line climbs from its middle on). */
  kink: number
}

/** Nothing before this share of the burn counts: the pickup still rings from the breakdown. */
const FIRST_SHARE = 0.04
/** Nothing after this share counts: a healthy line ends in a hook of its own. */
const LAST_SHARE = 0.92
/**
 * Width of the window, as a share of the burn: as wide as the bend of a healthy line allows for a straight line (it
 * then misses about 0.1 % of the level), since the arc's turbulence is slower than the recorder's noise and only width
 * averages it out. Wider only where that holds too few samples.
 */
const WIDTHS = [0.14, 0.2] as const
/** Fewest samples a window may hold. */
const LEAST_SAMPLES = 5
/** The starting line is drawn through at most this many block means. */
const START_BLOCKS = 20
/** Tukey's constant: 95 % efficient for normal noise, deaf to what lies 4.7 spreads off. */
const TUKEY = 4.685
const ROUNDS = 5
/** Blocks by whose means slow turbulence is told from the recorder's noise. */
const MEMORY_BLOCKS = 8

/**
 * Robust level of the spark line at a share of the burn: a straight line through a window of 14 % of the burn,
 * bisquare-weighted, read off at the very point, so that neither the slope of the line nor a
 * lopsided window (kept between 4 % and 92 %) pulls it. It stays a weighted mean of many samples, so that a coarse
 * recorder's steps average out as far as noise and slope allow.
 *
 * @param at    0..1
 * @param bend  what a straight line over the window may miss, from the line as a whole
 * @returns          undefined with fewer than 5 samples in the widest window
 * @source           weights: Beaton and Tukey 1974, Technometrics 16(2), 147-185; variance of a fitted line read off
 *                   the centre: any text on regression; steps: Widrow and Kollar 2008
 */
export function localLevel(line: SparkLine, at: number, bend: Bend): LocalLevel | undefined {
  const length = line.to - line.from
  const centre = line.from + at * length
  for (const width of WIDTHS) {
    const window = samplesOf(line, windowAbout(at, width))
    if (window.x.length < LEAST_SAMPLES) continue
    const fit = weightedLine(window, centre, noiseFloor(line))
    if (!fit) continue
    const { noiseKv, quantumKv } = line.wave
    const sweep = (Math.abs(fit.slope) * window.x.length) / Math.sqrt(12)
    return {
      kv: fit.kv, slope: fit.slope,
      budget: [
        { source: 'noise', u: fit.u },
        { source: 'quantisation', u: stepUncertainty(quantumKv, Math.hypot(noiseKv, sweep)) },
        { source: 'sampling', u: Math.abs(fit.slope) * line.endU },
        { source: 'method', u: missed(bend, window.x, centre) },
      ],
    }
  }
  return undefined
}

/** Window of a width about a share of the burn, moved (not cut) to stay where the line is clean. */
export function windowAbout(at: number, width: number): { from: number; to: number } {
  const from = Math.min(Math.max(at - width / 2, FIRST_SHARE), LAST_SHARE - width)
  return { from, to: from + width }
}

/** Spread below which residuals say nothing: the recorder's noise and steps. */
const noiseFloor = ({ wave }: SparkLine): number => Math.max(wave.noiseKv, wave.quantumKv / Math.sqrt(12), 1e-9)

interface Window { x: Float64Array; y: Float64Array }

function samplesOf(line: SparkLine, { from, to }: { from: number; to: number }): Window {
  const length = line.to - line.from
  const first = Math.ceil(line.from + from * length)
  const last = Math.min(Math.floor(line.from + to * length), line.wave.kv.length - 1)
  const y = line.wave.kv.subarray(first, last + 1)
  return { x: Float64Array.from(y, (_, i) => first + i), y }
}

/** Bisquare-weighted line; value and standard uncertainty at `centre`. */
function weightedLine(window: Window, centre: number, floor: number): { kv: number; slope: number; u: number } | undefined {
  const blocks = blockMeans(window, START_BLOCKS)
  const start = robustLine(blocks.x, blocks.y)
  if (!start) return undefined
  let line = { slope: start.slope, kv: start.intercept + start.slope * centre }
  const left = (): Float64Array => window.y.map((y, i) => y - line.kv - line.slope * (window.x[i]! - centre))
  let sums = undefined as ReturnType<typeof weightedSums> | undefined
  const spread = Math.max(floor, MAD_TO_SD * mad(left())!)
  for (let round = 0; round < ROUNDS; round++) {
    const weights = left().map((r) => bisquare(r / (TUKEY * spread)))
    sums = weightedSums(window, weights, centre)
    if (!sums) return undefined
    line = { slope: sums.slope, kv: sums.mean - sums.slope * sums.xMean }
  }
  const residuals = left()
  return { ...line, u: spread * memory(residuals) * Math.sqrt(1 / sums!.weight + sums!.xMean ** 2 / sums!.sxx) }
}

const bisquare = (r: number): number => (Math.abs(r) >= 1 ? 0 : (1 - r * r) ** 2)

/** Weighted means and slope, x counted from the centre. */
function weightedSums({ x, y }: Window, weights: Float64Array, centre: number):
{ weight: number; mean: number; xMean: number; sxx: number; slope: number } | undefined {
  let weight = 0, mean = 0, xMean = 0
  weights.forEach((w, i) => {
    weight += w
    mean += w * y[i]!
    xMean += w * (x[i]! - centre)
  })
  if (!(weight > 0)) return undefined
  mean /= weight
  xMean /= weight
  let sxx = 0, sxy = 0
  weights.forEach((w, i) => {
    const dx = x[i]! - centre - xMean
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

const rms = (values: Float64Array): number => Math.sqrt(values.reduce((total, v) => total + v * v, 0) / values.length)

/**
 * Standard uncertainty from the bend, kV. Spread out, a straight line through evenly spread points misses it by
 * c (d^2 - W^2/12) / 2 at the distance d from their centre; all at once in the centre, by W/8 of the change of slope,
 * of which nothing tells how much applies (even spread). The larger counts.
 */
function missed({ curvature, kink }: Bend, x: Float64Array, centre: number): number {
  const width = x.length
  const off = (x[0]! + x[width - 1]!) / 2 - centre
  const spreadOut = (Math.abs(curvature) * Math.abs(off * off - (width * width) / 12)) / 2
  return Math.max(spreadOut, (Math.abs(kink) * width) / 8 / Math.sqrt(3))
}
