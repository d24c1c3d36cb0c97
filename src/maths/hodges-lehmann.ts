import { normalQuantile } from './normal.ts'
import { quantileOfSorted } from './quantile.ts'
import { lowerRank, rankCountChances, signedRankChances } from './rank-distribution.ts'

/** Up to this many differences (or means) the ranks are exact; above, the normal approximation is as good. */
const MOST_EXACT = 2500

/**
 * Hodges-Lehmann shift of the second sample against the first: the median of all differences second - first,
 * with the interval of Moses made of the ordered differences. Where the samples are too small for the confidence,
 * the interval is the whole range of differences.
 *
 * @throws RangeError for an empty sample
 * @source Hollander and Wolfe 1999, Nonparametric Statistical Methods, 4.2 and 4.3
 */
export function hodgesLehmannShift(
  first: ArrayLike<number>,
  second: ArrayLike<number>,
  confidence = 0.95,
): { shift: number; low: number; high: number } {
  const n = first.length
  const m = second.length
  if (n === 0 || m === 0) throw new RangeError(`a shift needs two samples, got ${n} and ${m} values`)
  const differences = new Float64Array(n * m)
  for (let i = 0; i < n; i++) for (let j = 0; j < m; j++) differences[i * m + j] = second[j]! - first[i]!
  const tail = (1 - confidence) / 2
  const rank =
    n * m <= MOST_EXACT
      ? lowerRank(rankCountChances(n, m), tail)
      : Math.floor((n * m + 1) / 2 + normalQuantile(tail) * Math.sqrt((n * m * (n + m + 1)) / 12))
  const { middle, low, high } = aboutTheMiddle(differences.sort(), rank)
  return { shift: middle, low, high }
}

/**
 * One-sample Hodges-Lehmann location: the median of the means of all pairs (each value with itself too), with the
 * interval of Tukey made of those ordered means.
 *
 * @throws RangeError for no values
 * @source Hollander and Wolfe 1999, Nonparametric Statistical Methods, 3.2 and 3.3
 */
export function hodgesLehmannLocation(
  values: ArrayLike<number>,
  confidence = 0.95,
): { location: number; low: number; high: number } {
  const n = values.length
  if (n === 0) throw new RangeError('a location needs values')
  const means = new Float64Array((n * (n + 1)) / 2)
  let count = 0
  for (let i = 0; i < n; i++) for (let j = i; j < n; j++) means[count++] = (values[i]! + values[j]!) / 2
  const tail = (1 - confidence) / 2
  const rank =
    means.length <= MOST_EXACT
      ? lowerRank(signedRankChances(n), tail)
      : Math.floor(
          (means.length + 1) / 2 + normalQuantile(tail) * Math.sqrt((n * (n + 1) * (2 * n + 1)) / 24),
        )
  const { middle, low, high } = aboutTheMiddle(means.sort(), rank)
  return { location: middle, low, high }
}

/** Median of ordered values, and the values at a rank from either end. */
function aboutTheMiddle(rising: Float64Array, rank: number): { middle: number; low: number; high: number } {
  const within = Math.max(1, rank)
  return {
    middle: quantileOfSorted(rising, 0.5)!,
    low: rising[within - 1]!,
    high: rising[rising.length - within]!,
  }
}
