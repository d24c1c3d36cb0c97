import { normalQuantile } from './normal.ts'
import { median } from './median.ts'
import { quantileOfSorted } from './quantile.ts'

/** Line through the median of pairwise slopes, with the interval of the slope. */
export interface RobustLine {
  slope: number
  intercept: number
  slopeLow: number
  slopeHigh: number
}

/**
 * Theil-Sen line: slope is the median of all pairwise slopes, intercept is median(y) - slope median(x); the interval
 * of the slope is made of order statistics of those slopes, by Kendall's variance with the correction for tied y.
 * Up to 29 % of the points may be off without pulling it away. Cost grows with n^2: thin long series first.
 *
 * @param x, y        same length, n points
 * @param confidence  of the slope's interval, 0.95 unless given
 * @returns           undefined where fewer than two points differ in x
 * @throws            RangeError when the lengths differ
 * @source            Sen 1968, Journal of the American Statistical Association 63, 1379-1389
 */
export function robustLine(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  confidence = 0.95,
): RobustLine | undefined {
  if (x.length !== y.length)
    throw new RangeError(`a line needs as many x as y, got ${x.length} and ${y.length}`)
  const slopes = pairwiseSlopes(x, y).sort()
  const slope = quantileOfSorted(slopes, 0.5)
  if (slope === undefined) return undefined
  const reach = normalQuantile(0.5 + confidence / 2) * Math.sqrt(kendallVariance(y))
  const count = slopes.length
  const lower = Math.max(Math.round((count - reach) / 2), 1)
  const upper = Math.min(Math.round((count + reach) / 2) + 1, count)
  return {
    slope,
    intercept: median(y)! - slope * median(x)!,
    slopeLow: slopes[lower - 1]!,
    slopeHigh: slopes[upper - 1]!,
  }
}

function pairwiseSlopes(x: ArrayLike<number>, y: ArrayLike<number>): Float64Array {
  const n = x.length
  const slopes = new Float64Array((n * (n - 1)) / 2)
  let count = 0
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      const dx = x[j]! - x[i]!
      if (dx !== 0) slopes[count++] = (y[j]! - y[i]!) / dx
    }
  }
  return slopes.subarray(0, count)
}

/** Variance of Kendall's statistic, less what tied y take away. */
function kendallVariance(y: ArrayLike<number>): number {
  const counts = new Map<number, number>()
  for (let i = 0; i < y.length; i++) counts.set(y[i]!, (counts.get(y[i]!) ?? 0) + 1)
  const part = (n: number): number => (n * (n - 1) * (2 * n + 5)) / 18
  let variance = part(y.length)
  for (const tied of counts.values()) variance -= part(tied)
  return variance
}
