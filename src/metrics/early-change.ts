import { joined, withBudget } from './budget.ts'
import type { EventFigure } from './figures.ts'

/**
 * Early change: spark-line level at 50 % of the burn less the level at 10 %.
 *
 * @param start, mid  levels of one event, kV
 * @returns           kV; u is that of the two levels, taken as independent; gain is added per cylinder. Absent: as the
 *                    levels.
 * @source            definition: shop-practice
 */
export function earlyChangeKv(start: EventFigure<'kV'>, mid: EventFigure<'kV'>): EventFigure<'kV'> {
  if (!start.ok) return start
  if (!mid.ok) return mid
  return withBudget(mid.value - start.value, 'kV', joined([...(mid.budget ?? []), ...(start.budget ?? [])]))
}
