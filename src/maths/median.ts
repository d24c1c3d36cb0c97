import { quantile } from './quantile.ts'

/** Middle value; mean of the middle two for an even count; undefined for no values. @throws RangeError for NaN. */
export function median(values: ArrayLike<number>): number | undefined {
  return quantile(values, 0.5)
}
