/** Copy of the values in rising order. @throws RangeError for a value that is not a number. */
export function sorted(values: ArrayLike<number>): Float64Array {
  const copy = new Float64Array(values)
  for (let i = 0; i < copy.length; i++)
    if (Number.isNaN(copy[i])) throw new RangeError('cannot order values: one is not a number')
  return copy.sort()
}

/**
 * Quantile of values already in rising order, definition 7 of Hyndman and Fan: linear between order statistics,
 * the p-quantile at position (n - 1) p.
 *
 * @param rising  n values in rising order
 * @param p       0 to 1
 * @returns       undefined for no values
 * @source        Hyndman and Fan 1996, The American Statistician 50(4), 361-365
 */
export function quantileOfSorted(rising: ArrayLike<number>, p: number): number | undefined {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`a quantile needs p from 0 to 1, got ${p}`)
  if (rising.length === 0) return undefined
  const at = (rising.length - 1) * p
  const below = Math.floor(at)
  const low = rising[below]!
  const high = rising[Math.min(below + 1, rising.length - 1)]!
  return low + (at - below) * (high - low)
}

/** As `quantileOfSorted`, values in any order; not changed. */
export function quantile(values: ArrayLike<number>, p: number): number | undefined {
  return quantileOfSorted(sorted(values), p)
}
