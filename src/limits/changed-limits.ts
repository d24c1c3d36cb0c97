import type { LimitKey } from './keys.ts'
import type { Limits } from './limits.ts'
import { SHIPPED_LIMITS } from './shipped-limits.ts'

/** Keys of the limits whose value is not the one this program was shipped with: the report says which. */
export function changedLimits(limits: Limits): ReadonlySet<string> {
  return new Set(
    (Object.keys(SHIPPED_LIMITS) as LimitKey[]).filter((key) => SHIPPED_LIMITS[key] !== limits[key].value),
  )
}
