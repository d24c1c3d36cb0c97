import { formatNumber } from '../texts/format-quantity.ts'
import { note, type RuleRow, type TextRow } from './drawing.ts'
import type { Axis } from './nice-ticks.ts'
import { HAIR, QUIET } from './theme.ts'

/** A rule across a small panel for each tick of its axis, and where `numbered` its number at the left. */
export function yGrid(
  y: Axis,
  panel: {
    left: number
    widthPt: number
    yOf: (value: number) => number
    numbered: boolean
    language: string
    /** Colour of a tick's rule, where it is not the hair line's. */
    stroke?: (tick: number) => string
  },
): { rules: RuleRow[]; texts: TextRow[] } {
  const { left, widthPt, yOf, numbered, language, stroke = () => HAIR } = panel
  return {
    rules: y.ticks.map((tick) => ({
      role: 'grid',
      x: left,
      y: yOf(tick),
      x2: left + widthPt,
      y2: yOf(tick),
      stroke: stroke(tick),
      width: 0.5,
      dash: [],
    })),
    texts: numbered
      ? y.ticks.map((tick) =>
          note('tick', formatNumber(tick, y.decimals, language), {
            x: left - 4,
            y: yOf(tick),
            align: 'right',
            fill: QUIET,
          }),
        )
      : [],
  }
}
