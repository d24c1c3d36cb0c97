/** What a column's texts ask for, in points, padding included. */
export interface ColumnNeed {
  /** Width at which no word is cut. */
  leastPt: number
  /** Least width where intervals are parted behind their dots, for a table that is too narrow otherwise. */
  tightPt?: number
  /** Width at which no line breaks. */
  idealPt: number
  /** Share of the room that nobody needs; 0 for a column that is to be as narrow as its texts allow. */
  grow: number
  /** For every row, the widths in one line of the texts that stand below each other in its cell. */
  rows: readonly (readonly number[])[]
}

/**
 * Widths of a table's columns, adding up to the table's width.
 * Columns that do not grow get their ideal width and give way down to their least; growing ones get their least, and the
 * rest goes, bit by bit, to the column that it shortens the table by most. Where even the least widths do not fit, all
 * are cut down alike and words are cut; but first intervals are parted, never a figure.
 */
export function columnWidths(needs: readonly ColumnNeed[], widthPt: number): readonly number[] {
  const least = sum(needs.map((need) => need.leastPt))
  if (least > widthPt && needs.some(({ tightPt }) => tightPt !== undefined)) {
    return columnWidths(
      needs.map(({ tightPt, ...need }) => ({ ...need, leastPt: tightPt ?? need.leastPt })),
      widthPt,
    )
  }
  if (least >= widthPt) return needs.map((need) => (need.leastPt * widthPt) / least)
  const room = widthPt - least
  const slack = needs.map((need) => (need.grow > 0 ? 0 : need.idealPt - need.leastPt))
  const given = slack.map((want) => want * Math.min(1, room / (sum(slack) || 1)))
  const start = needs.map((need, i) => need.leastPt + given[i]!)
  return shareLeftOver(needs, shorten(needs, start, widthPt), widthPt)
}

/** Room handed out at a time, pt: fine enough that no line is won or lost by it. */
const BIT_PT = 6

/** Hands out room where it shortens the table by most, until no column wants any. */
function shorten(needs: readonly ColumnNeed[], start: readonly number[], widthPt: number): readonly number[] {
  const widths = [...start]
  const heights = needs.map((need, i) => weightedLines(need, widths[i]!))
  for (let room = widthPt - sum(widths); room > BIT_PT; room -= BIT_PT) {
    const open = needs.map((_, i) => i).filter((i) => needs[i]!.grow > 0 && widths[i]! < needs[i]!.idealPt)
    if (open.length === 0) break
    const tried = open.map((i) => {
      const own = weightedLines(needs[i]!, widths[i]! + BIT_PT)
      return { i, own, height: heightOf(heights.map((column, j) => (j === i ? own : column))) }
    })
    const best = tried.reduce((a, b) => (b.height < a.height ? b : a))
    widths[best.i]! += BIT_PT
    heights[best.i] = best.own
  }
  return widths
}

/** Lines that end a little early at a word's end, as a share of the width. */
const RAGGED = 1.06

/** How much the taller cell of a row counts over the others: nearly alone, but of two alike both. */
const TALLEST = 6

/**
 * Lines of a column's cells to that power. They are not rounded: a bit of room too small to win a line still counts
 * towards it.
 */
const weightedLines = (need: ColumnNeed, widthPt: number): Float64Array =>
  Float64Array.from(need.rows, (parts) => {
    let lines = 0
    for (const part of parts) lines += Math.max(1, (part * RAGGED) / widthPt)
    return lines ** TALLEST
  })

/** Height of all rows, in lines. */
function heightOf(columns: readonly Float64Array[]): number {
  let total = 0
  for (let row = 0; row < (columns[0]?.length ?? 0); row++) {
    let weighted = 0
    for (const column of columns) weighted += column[row]!
    total += weighted ** (1 / TALLEST)
  }
  return total
}

/** Room that no column needs: to those that grow, by weight; without any, to all alike. */
function shareLeftOver(
  needs: readonly ColumnNeed[],
  widths: readonly number[],
  widthPt: number,
): readonly number[] {
  const rest = widthPt - sum(widths)
  const grow = sum(needs.map((need) => need.grow))
  return widths.map((width, i) => width + rest * (grow === 0 ? 1 / needs.length : needs[i]!.grow / grow))
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0)
