/** Sum with Neumaier's compensation, so that small terms are not lost beside large ones. */
export function sum(values: ArrayLike<number>): number {
  let total = 0
  let lost = 0
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!
    const next = total + value
    lost += Math.abs(total) >= Math.abs(value) ? total - next + value : value - next + total
    total = next
  }
  return total + lost
}

/**
 * Arithmetic mean: a first mean, then the mean of what is left.
 * @returns undefined for no values
 */
export function mean(values: ArrayLike<number>): number | undefined {
  const n = values.length
  if (n === 0) return undefined
  const first = sum(values) / n
  return first + sum(Float64Array.from(values, (v) => v - first)) / n
}

/**
 * Standard deviation with n - 1, two passes, corrected for the rounding of the mean.
 * @returns undefined for fewer than two values
 * @source  Chan, Golub and LeVeque 1983, The American Statistician 37(3), 242-247
 */
export function standardDeviation(values: ArrayLike<number>): number | undefined {
  const n = values.length
  if (n < 2) return undefined
  const middle = mean(values)!
  const off = Float64Array.from(values, (v) => v - middle)
  const rest = sum(off)
  const squares = sum(off.map((d) => d * d))
  return Math.sqrt(Math.max(0, squares - (rest * rest) / n) / (n - 1))
}
