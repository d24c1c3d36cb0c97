import { absent } from '../units/measured.ts'
import { joined, scaled, withBudget } from './budget.ts'
import type { EventFigure } from './figures.ts'

/**
 * Late rise: spark-line level at 90 % of the burn less the level at 50 %.
 *
 * @param mid, late  levels of one event, kV
 * @returns          kV; u is that of the two levels, taken as independent. The instrument's gain is added per
 *                   cylinder. Absent: as the levels.
 * @source           definition: shop-practice
 */
export function lateRiseKv(mid: EventFigure<'kV'>, late: EventFigure<'kV'>): EventFigure<'kV'> {
  if (!mid.ok) return mid
  if (!late.ok) return late
  return withBudget(late.value - mid.value, 'kV', joined([...(late.budget ?? []), ...(mid.budget ?? [])]))
}

/**
 * Late rise as a share of the level at 50 %: 100 (late - mid) / mid.
 *
 * An error of the instrument's gain multiplies both levels alike and cancels, so that the instrument's stated voltage
 * uncertainty has no part in this figure, here or per cylinder. An error of the zero would not cancel; the level
 * before the event is taken off for that reason.
 *
 * @param mid, late  levels of one event, kV
 * @returns          %; u by propagation: sensitivities 100/mid and -100 late/mid^2. Absent: as the levels, or
 *                   `not-visible` where the middle level does not stand clear of zero.
 * @source           definition: shop-practice; JCGM 100:2008, 5.1.2
 */
export function lateRisePct(mid: EventFigure<'kV'>, late: EventFigure<'kV'>): EventFigure<'%'> {
  if (!mid.ok) return mid
  if (!late.ok) return late
  // A ratio whose divisor may be zero has no usable uncertainty.
  if (!(mid.value > 3 * mid.u)) return absent('not-visible')
  return withBudget(
    (100 * (late.value - mid.value)) / mid.value,
    '%',
    joined([
      ...scaled(late.budget ?? [], 100 / mid.value),
      ...scaled(mid.budget ?? [], (100 * late.value) / mid.value ** 2),
    ]),
  )
}
