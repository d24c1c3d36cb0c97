import { cleanText } from '../text/clean-text.ts'
import type { Typeface } from '../text/typeface.ts'
import { SIZES } from '../theme.ts'
import type { TableContent } from './table.ts'

const { sizePt } = SIZES.small

/**
 * Widths of a table's columns, adding up to the table's width.
 * A column that does not grow is as wide as its longest text; growing columns share the rest by their share.
 * Where the fixed ones would leave the growing ones less than a readable width, all are cut down alike and wrap.
 */
export function columnWidths(
  { columns, rows }: TableContent, how: { widthPt: number; padPt: number; typeface: Typeface },
): readonly number[] {
  const wanted = columns.map((column, i) => (column.grow > 0 ? 0 : widest(i) + 2 * how.padPt + SLACK_PT))
  const grow = columns.reduce((sum, column) => sum + column.grow, 0)
  const least = grow > 0 ? columns.filter((column) => column.grow > 0).length * LEAST_GROWING_PT : 0
  const fixed = wanted.reduce((sum, width) => sum + width, 0)
  const shrink = Math.min(1, (how.widthPt - least) / fixed)
  const rest = how.widthPt - fixed * shrink
  return columns.map((column, i) =>
    (grow > 0 ? wanted[i]! * shrink + (rest * column.grow) / grow : (wanted[i]! * how.widthPt) / fixed))

  function widest(i: number): number {
    const width = (text: string, face: 'regular' | 'semibold') =>
      how.typeface.width(cleanText(text, how.typeface.has), { face, sizePt })
    const cells = rows.map((row) => row[i] ?? '').map((cell) => (typeof cell === 'string' ? { text: cell } : cell))
    return Math.max(width(columns[i]!.title, 'semibold'), ...cells.map((cell) =>
      Math.max(width(cell.text, cell.strong ? 'semibold' : 'regular'), width(cell.note ?? '', 'regular'))))
  }
}

/** Least width of a column that holds running text. */
const LEAST_GROWING_PT = 90
/** Against a line break from the last bit of a sum. */
const SLACK_PT = 0.1
