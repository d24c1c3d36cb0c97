import { binomialCdf } from './binomial.ts'
import { median } from './median.ts'
import { sorted } from './quantile.ts'

/** Order statistics (1-based) that bound the median, and the chance that they do. */
export interface MedianRanks {
  low: number
  high: number
  coverage: number
}

/**
 * Ranks r and n + 1 - r of the narrowest interval of the median with at least the stated coverage, whatever the
 * distribution.
 *
 * @returns undefined where even the smallest and largest value do not reach the coverage (n < 6 at 0.95)
 * @source  Conover 1999, Practical Nonparametric Statistics, sec. 3.2
 */
export function medianIntervalRanks(n: number, coverage = 0.95): MedianRanks | undefined {
  const covers = (r: number): number => 1 - 2 * binomialCdf(r - 1, n, 0.5)
  if (n < 1 || covers(1) < coverage) return undefined
  let low = 1
  while (low + 1 < n + 1 - (low + 1) && covers(low + 1) >= coverage) low++
  return { low, high: n + 1 - low, coverage: covers(low) }
}

/**
 * Median with an interval of close to the stated coverage. The whole ranks overshoot it (97.9 % at n = 10); the ends
 * are therefore moved between those ranks and the next inner ones by the interpolation of Hettmansperger and
 * Sheather, which is exact for a double exponential and within a fraction of a percent for other symmetric shapes.
 *
 * @returns undefined where `medianIntervalRanks` is
 * @source  Hettmansperger and Sheather 1986, Statistics and Probability Letters 4(2), 75-79
 */
export function medianInterval(
  values: ArrayLike<number>,
  coverage = 0.95,
): { value: number; low: number; high: number } | undefined {
  const n = values.length
  const ranks = medianIntervalRanks(n, coverage)
  if (!ranks) return undefined
  const rising = sorted(values)
  const r = ranks.low
  const inner = 1 - 2 * binomialCdf(r, n, 0.5)
  const past = (ranks.coverage - coverage) / (ranks.coverage - inner)
  // No inner pair is left in the very middle; the whole ranks stand then.
  const share = r + 1 <= n - r ? ((n - r) * past) / (r + (n - 2 * r) * past) : 0
  const mix = (outer: number, next: number): number => outer + share * (next - outer)
  return {
    value: median(rising)!,
    low: mix(rising[r - 1]!, rising[r]!),
    high: mix(rising[n - r]!, rising[n - r - 1]!),
  }
}
