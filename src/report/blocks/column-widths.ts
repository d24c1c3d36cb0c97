/** What a column's texts ask for, in points, padding included. */
export interface ColumnNeed {
  /** Width at which no word is cut. */
  leastPt: number
  /** Width at which no line breaks. */
  idealPt: number
  /** Share of the room left over; 0 for a column that is to be as narrow as its texts allow. */
  grow: number
}

/**
 * Widths of a table's columns, adding up to the table's width.
 * Columns that do not grow get their ideal width and give way down to their least; growing ones get their least and
 * share the rest. Where even the least widths do not fit, all are cut down alike and words are cut.
 */
export function columnWidths(needs: readonly ColumnNeed[], widthPt: number): readonly number[] {
  const least = sum(needs.map((need) => need.leastPt))
  if (least >= widthPt) return needs.map((need) => (need.leastPt * widthPt) / least)
  const room = widthPt - least
  const slack = needs.map((need) => (need.grow > 0 ? 0 : need.idealPt - need.leastPt))
  const given = slack.map((want) => want * Math.min(1, room / (sum(slack) || 1)))
  const rest = room - sum(given)
  const grow = sum(needs.map((need) => need.grow))
  if (grow === 0) return needs.map((need, i) => need.leastPt + given[i]! + rest / needs.length)
  const shared = shareOut(needs.map((need) => need.idealPt - need.leastPt), needs.map((need) => need.grow), rest)
  return needs.map((need, i) => need.leastPt + given[i]! + shared[i]!)
}

/** Shares room by weight, none getting more than it wants while another still wants; what nobody wants is shared by weight. */
function shareOut(wants: readonly number[], weights: readonly number[], room: number): readonly number[] {
  const shares = wants.map(() => 0)
  let open = wants.map((_, i) => i).filter((i) => weights[i]! > 0)
  let left = room
  while (open.length > 0) {
    const total = sum(open.map((i) => weights[i]!))
    const full = open.filter((i) => wants[i]! <= (left * weights[i]!) / total)
    if (full.length === 0) {
      for (const i of open) shares[i] = (left * weights[i]!) / total
      return shares
    }
    for (const i of full) { shares[i] = wants[i]!; left -= wants[i]! }
    open = open.filter((i) => !full.includes(i))
  }
  const total = sum(weights)
  return shares.map((share, i) => share + (left * weights[i]!) / total)
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0)
