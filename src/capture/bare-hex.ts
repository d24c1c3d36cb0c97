import { classOf, plainCell } from './cell-text.ts'

/** A count in hex without its `0x`, as recorders write their memory. */
const BARE = /^[0-9a-f]{2,8}$/i
/** Different figures that have to be seen before a column is taken for counts in hex: words are few. */
const LEAST_FIGURES = 8

/**
 * Columns of counts in hex without a mark: every cell as long as the others, and some that are no figure in any other
 * way. 0-based.
 *
 * @param rows  cells of rows of the data
 */
export function bareHexColumns(rows: readonly (readonly string[])[]): number[] {
  const [first = []] = rows
  return first.flatMap((cell, column) => {
    if (!BARE.test(cell)) return []
    const cells = rows.map((row) => row[column] ?? '')
    if (!cells.every((each) => each.length === cell.length && BARE.test(each))) return []
    const isShown = cells.some((each) => classOf(plainCell(each)) === 'text' && /\d/.test(each))
    return isShown && new Set(cells).size >= LEAST_FIGURES ? [column] : []
  })
}

/** The count a cell of such a column stands for; undefined where it is none. */
export const bareHexOf = (cell: string): number | undefined =>
  BARE.test(cell) ? Number.parseInt(cell, 16) : undefined
