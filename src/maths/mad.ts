import { median } from './median.ts'

/** Standard deviation of a normal distribution in units of its median absolute deviation: 1 / z(0.75). */
export const MAD_TO_SD = 1.482602218505602

/** Median absolute deviation from the median, not scaled; undefined for no values. */
export function mad(values: ArrayLike<number>): number | undefined {
  const middle = median(values)
  if (middle === undefined) return undefined
  const off = new Float64Array(values.length)
  for (let i = 0; i < off.length; i++) off[i] = Math.abs(values[i]! - middle)
  return median(off)
}
