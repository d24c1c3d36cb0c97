import type { Interval, Unit } from '../../units/measured.ts'

/** A value with an expanded uncertainty (95 %) that is a share of it. */
export function withShare<U extends Unit>(value: number, sharePct: number, unit: U): Interval<U> {
  const half = (Math.abs(value) * sharePct) / 100
  return { value, low: value - half, high: value + half, unit }
}

/** A value with an expanded uncertainty (95 %) in its own unit. */
export const withHalf = <U extends Unit>(value: number, half: number, unit: U): Interval<U> => ({
  value,
  low: value - half,
  high: value + half,
  unit,
})
