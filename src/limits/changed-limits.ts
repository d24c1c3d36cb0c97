import type { Limits } from './limits.ts'
import { SHIPPED_LIMITS } from './shipped-limits.ts'

/** Keys of the limits whose value is not the one this program was shipped with: the report says which. */
export function changedLimits(limits: Limits): ReadonlySet<string> {
  return new Set(
    Object.entries(limits)
      .filter(([key, l]) => SHIPPED_LIMITS[key] !== l.value)
      .map(([key]) => key),
  )
}
