import { mad, MAD_TO_SD } from '../maths/mad.ts'
import { prepareLinearFit } from '../maths/linear-fit.ts'
import { median } from '../maths/median.ts'
import type { SparkLine } from './spark-line.ts'

/** How much of a line's change of slope comes all at once in its middle, 0..1, with its standard uncertainty. */
export interface Sharpness {
  share: number
  u: number
}

/** Nothing known: any share is as likely as another. @source JCGM 100:2008, 4.3.7 */
export const UNKNOWN_SHARPNESS: Sharpness = { share: 0.5, u: 1 / Math.sqrt(12) }

/** Stretch about the middle over which the bend is looked at, as a share of the burn. */
const WIDTH = 0.3
/** The middles of the halves whose slopes are compared lie this share of the burn apart. */
export const SLOPES_APART = 0.4
/** Fewest samples in the stretch, and fewest lines that tell something together. */
const LEAST_SAMPLES = 10
const LEAST_LINES = 5
/** Standard error of a median of n normal values, in units of sd / sqrt(n): sqrt(pi / 2). */
const MEDIAN_EFFICIENCY = Math.sqrt(Math.PI / 2)

/**
 * Share of the kink |x| that a bend of unit change of slope shows over the stretch: a bend all at once is half of it,
 * c x^2 / 2 with c = 1 / SLOPES_APART is w c / 2 of it (least squares of x^2 on |x| over -w..w has the slope w).
 */
const AT_ONCE = 0.5
const SPREAD_OUT = WIDTH / 4 / SLOPES_APART

/** What one line shows of its bend: change of slope from its first half to its second, and kink, kV per sample. */
export interface BendSeen {
  changeOfSlope: number
  kink: number
}

/** Height of the kink |x| about the middle of the burn, by least squares with a straight line, kV per sample. */
export function kinkOf(line: SparkLine): number | undefined {
  const length = line.to - line.from
  const centre = line.from + 0.5 * length
  const first = Math.ceil(centre - (WIDTH / 2) * length)
  const y = line.wave.kv.slice(first, Math.floor(centre + (WIDTH / 2) * length) + 1)
  if (y.length < LEAST_SAMPLES) return undefined
  const x = Float64Array.from(y, (_, i) => first + i - centre)
  // Columns of about unit size keep the normal equations sound.
  const scale = (WIDTH / 2) * length
  const fit = prepareLinearFit([
    x.map(() => 1),
    x.map((v) => v / scale),
    x.map((v) => Math.abs(v) / scale),
  ])?.(y)
  return fit && fit.coefficients[2]! / scale
}

/**
 * How sharply the lines of one cylinder bend in their middle. A lean line may turn there all at once, a healthy one
 * bends over its whole length; a single line is too rough to tell, the lines of a capture together are not. What they
 * show is weighed against knowing nothing, each by its uncertainty.
 *
 * @source JCGM 100:2008, 4.3.7 (even spread); weighted mean of two estimates by inverse variance
 */
export function sharpnessOf(bends: readonly BendSeen[]): Sharpness {
  const change = median(bends.map((b) => b.changeOfSlope))
  if (bends.length < LEAST_LINES || change === undefined || change === 0) return UNKNOWN_SHARPNESS
  const kinks = bends.map((b) => b.kink)
  const perShare = (AT_ONCE - SPREAD_OUT) * change
  const seen = (median(kinks)! - SPREAD_OUT * change) / perShare
  const seenU = (MEDIAN_EFFICIENCY * MAD_TO_SD * mad(kinks)!) / Math.sqrt(kinks.length) / Math.abs(perShare)
  if (!(seenU > 0)) return { share: Math.min(1, Math.max(0, seen)), u: 0 }
  const [own, prior] = [1 / seenU ** 2, 1 / UNKNOWN_SHARPNESS.u ** 2]
  const share = (own * Math.min(1, Math.max(0, seen)) + prior * UNKNOWN_SHARPNESS.share) / (own + prior)
  return { share, u: 1 / Math.sqrt(own + prior) }
}
