import { mean, sum } from './mean-sd.ts'

/**
 * Correlation of a series with itself one step later: sum (y[i] - m)(y[i+1] - m) / sum (y[i] - m)^2.
 *
 * @returns undefined for fewer than two values or a constant series
 * @source  definition of the NIST Statistical Reference Datasets, univariate summary statistics
 */
export function lagOneAutocorrelation(values: ArrayLike<number>): number | undefined {
  const middle = mean(values)
  if (middle === undefined || values.length < 2) return undefined
  const off = Float64Array.from(values, (v) => v - middle)
  const power = sum(off.map((d) => d * d))
  if (power === 0) return undefined
  return sum(off.subarray(1).map((d, i) => d * off[i]!)) / power
}
