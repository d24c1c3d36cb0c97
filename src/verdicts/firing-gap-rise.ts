import { limit, type Limits } from '../limits/limits.ts'
import type { Summary } from '../metrics/figures.ts'
import type { Available } from './evidence.ts'

/**
 * Late rise of the firing gap alone, from that of a whole coil's two gaps in series.
 *
 * The wasted gap burns in thin, hot gas and falls by itself; on a healthy coil the sum falls by some percent of its
 * middle level, and the firing gap holds only a part of that level. So a rise r of the sum is a rise of (r + fall) /
 * share of the firing gap. Both numbers are limits with their doubt, which joins the interval.
 *
 * @param rise  late rise of the sum, % of the sum's middle level
 * @returns     % of the firing gap's own middle level
 */
export function firingGapRise(rise: Summary<'%'>, limits: Limits): Available {
  if (!rise.ok) return rise
  const fall = limit(limits, 'wholeCoilFallPct')
  const share = limit(limits, 'wholeCoilFiringSharePct') / 100
  const value = (rise.value + fall) / share
  const doubt = Math.hypot(
    limit(limits, 'wholeCoilFallDoubtPct') / share,
    (value * limit(limits, 'wholeCoilShareDoubtPct')) / 100,
  )
  return {
    ok: true,
    interval: {
      value,
      low: value - Math.hypot((rise.value - rise.low) / share, doubt),
      high: value + Math.hypot((rise.high - rise.value) / share, doubt),
      unit: '%',
    },
  }
}
