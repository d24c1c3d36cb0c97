import { normalQuantile } from '../maths/normal.ts'
import type { BudgetLine, CylinderSummaries, FigureName } from '../metrics/figures.ts'
import type { Interval } from '../units/measured.ts'

/** Parts of a figure's uncertainty that all events of a capture share: one recorder has them alike before and after. */
const SHARED: readonly BudgetLine['source'][] = ['instrument', 'method', 'pickup', 'zero', 'quantisation']

/** One cylinder in one stage, with its figures' budgets where they are known. */
interface WithFigures {
  figures?: CylinderSummaries
}

/**
 * A shift between the captures of two recorders. The ranks of the events know only what differs from event to event;
 * where the end of the burn lies on either recorder's samples, its steps and its clock move every event of one capture
 * alike. With one recorder that falls out of the difference, with two it adds, as the root of the squares.
 *
 * @param confidence  of the interval
 * @source            JCGM 100:2008, 5.1.2
 */
export function acrossRecorders<I extends Pick<Interval, 'value' | 'low' | 'high'>>(
  shift: I,
  name: FigureName,
  it: { before: WithFigures; after: WithFigures; confidence: number },
): I {
  const reach =
    normalQuantile(1 - (1 - it.confidence) / 2) *
    Math.hypot(sharedU(it.before, name), sharedU(it.after, name))
  return {
    ...shift,
    low: shift.value - Math.hypot(shift.value - shift.low, reach),
    high: shift.value + Math.hypot(shift.high - shift.value, reach),
  }
}

function sharedU({ figures }: WithFigures, name: FigureName): number {
  const figure = figures?.[name]
  return figure?.ok
    ? Math.hypot(...figure.budget.filter(({ source }) => SHARED.includes(source)).map(({ u }) => u))
    : 0
}
