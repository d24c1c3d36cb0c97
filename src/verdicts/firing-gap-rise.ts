import { K95 } from '../maths/normal.ts'
import { limit, type Limits } from '../limits/limits.ts'
import { scaled, withBudget } from '../metrics/budget.ts'
import type { EventFigure } from '../metrics/figures.ts'

/**
 * Late rise of the firing gap alone, from that of a whole coil's two gaps in series.
 *
 * The wasted gap burns in thin, hot gas and falls by itself; on a healthy coil the sum falls by some percent of its
 * middle level, and the firing gap holds only a part of that level. So a rise r of the sum is a rise of (r + fall) /
 * share of the firing gap. Both numbers are limits with their doubt, which all events share (`method`).
 *
 * @param rise  late rise of the sum, % of the sum's middle level
 * @returns     % of the firing gap's own middle level
 */
export function firingGapRise(rise: EventFigure<'%'>, limits: Limits): EventFigure<'%'> {
  if (!rise.ok) return rise
  const share = limit(limits, 'wholeCoilFiringSharePct') / 100
  const value = (rise.value + limit(limits, 'wholeCoilFallPct')) / share
  const doubt = Math.hypot(
    limit(limits, 'wholeCoilFallDoubtPct') / share,
    (value * limit(limits, 'wholeCoilShareDoubtPct')) / 100,
  )
  return withBudget(value, '%', [
    ...scaled(rise.budget ?? [{ source: 'noise', u: rise.u }], 1 / share),
    { source: 'method', u: doubt / K95 },
  ])
}
