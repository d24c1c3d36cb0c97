import { mean, sum } from './mean-sd.ts'

/** A straight line y = intercept + slope x with the standard deviations of its coefficients. */
export interface Line {
  slope: number
  intercept: number
  /** Standard deviation of what the line leaves, n - 2; undefined for two points. */
  residualSd: number | undefined
  slopeSd: number | undefined
  interceptSd: number | undefined
}

/**
 * Least-squares straight line; sums taken about the means.
 *
 * @param x, y  same length
 * @returns     undefined for fewer than two points or a single x
 * @throws      RangeError when the lengths differ
 */
export function leastSquaresLine(x: ArrayLike<number>, y: ArrayLike<number>): Line | undefined {
  if (x.length !== y.length)
    throw new RangeError(`a line needs as many x as y, got ${x.length} and ${y.length}`)
  const n = x.length
  if (n < 2) return undefined
  const xMean = mean(x)!
  const yMean = mean(y)!
  const dx = Float64Array.from(x, (v) => v - xMean)
  const sxx = sum(dx.map((d) => d * d))
  if (sxx === 0) return undefined
  const slope = sum(dx.map((d, i) => d * (y[i]! - yMean))) / sxx
  const intercept = yMean - slope * xMean
  if (n === 2) return { slope, intercept, residualSd: undefined, slopeSd: undefined, interceptSd: undefined }
  const left = sum(dx.map((d, i) => (y[i]! - yMean - slope * d) ** 2))
  const residualSd = Math.sqrt(left / (n - 2))
  return {
    slope,
    intercept,
    residualSd,
    slopeSd: residualSd / Math.sqrt(sxx),
    interceptSd: residualSd * Math.sqrt(1 / n + xMean ** 2 / sxx),
  }
}
