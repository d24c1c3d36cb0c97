/** What the page breaker knows of a block: heights in points, nothing of its content. */
export interface Shape {
  /** Heights of the parts between which the block may be cut, in order. One part: never cut. */
  pieces: readonly number[]
  /** Drawn again on top of every continued part (a table's head), and counted in the first part too. */
  headPt: number
  /** White above, dropped at the top of a page. */
  gapPt: number
  /** Stays on the page of the block that follows (a heading). */
  keepWithNext: boolean
  /** Fewest pieces left alone at a page's foot or head. */
  fewestPieces: number
  /** Starts on a page of its own. */
  newPage?: boolean
  /** May stand later than the text after it, within its section, when it does not fit (a chart). */
  floats?: boolean
  /** Height down to which the block may be drawn smaller to fill a page's foot (a chart); only for a block of one piece. */
  leastPt?: number
  /** A heading: nothing that floats moves past it. */
  holdsFloats?: boolean
}

/** One part of a block on one page. `yPt` is its top, from the top of the page's body, the repeated head included. */
export interface Placement {
  item: number
  from: number
  to: number
  page: number
  yPt: number
  first: boolean
  last: boolean
  /** Height given to the part, the repeated head included; less than asked for where the block was drawn smaller. */
  heightPt: number
}

interface Cursor {
  page: number
  yPt: number
}

/**
 * Puts blocks on pages from top to bottom. Headings stay with what follows, a block without cuts moves whole,
 * a long one is cut between its pieces with its head repeated; a floating one that does not fit lets what follows it
 * go first, as far as the next heading.
 * A chart may be drawn a little smaller to fill a page's foot, or to let the chart after it stand on the same page. A single piece taller than the page is placed alone at a page's top: blocks must cut such pieces themselves.
 *
 * @param shapes   in reading order
 * @param pagePt   height of the body
 * @returns        placements in drawing order: page by page, downwards
 */
export function breakPages(shapes: readonly Shape[], pagePt: number): readonly Placement[] {
  const placements: Placement[] = []
  let cursor: Cursor = { page: 0, yPt: 0 }
  let waiting: number[] = []
  const put = (item: number) => {
    cursor = place({ shapes, pagePt, placements }, item, cursor)
  }
  const putWaiting = () => {
    waiting.forEach(put)
    waiting = []
  }
  for (let item = 0; item < shapes.length; item++) {
    const shape = shapes[item]!
    if (shape.holdsFloats) putWaiting()
    if (shape.newPage && cursor.yPt > 0) cursor = nextPage(cursor)
    if (shape.floats && !fits(shapes, item, { cursor, pagePt })) {
      waiting.push(item)
      continue
    }
    const before = cursor.page
    put(item)
    if (cursor.page > before && !shape.keepWithNext) putWaiting()
  }
  putWaiting()
  return placements
}

interface Sheet {
  shapes: readonly Shape[]
  pagePt: number
  placements: Placement[]
}

function place(sheet: Sheet, item: number, start: Cursor): Cursor {
  const { shapes, pagePt, placements } = sheet
  const shape = shapes[item]!
  let cursor = start
  if (cursor.yPt > 0 && !fits(shapes, item, { cursor, pagePt })) cursor = nextPage(cursor)
  let from = 0
  while (from < shape.pieces.length) {
    const yPt = cursor.yPt === 0 ? 0 : cursor.yPt + shape.gapPt
    const to = cutAt(shape, from, pagePt - yPt)
    const asked = shape.headPt + sum(shape.pieces, from, to)
    const heightPt =
      shape.leastPt === undefined
        ? asked
        : Math.max(shape.leastPt, Math.min(asked, pagePt - yPt - keptForNext(sheet, item, { yPt, asked })))
    placements.push({
      item,
      from,
      to,
      page: cursor.page,
      yPt,
      first: from === 0,
      last: to === shape.pieces.length,
      heightPt,
    })
    cursor = { page: cursor.page, yPt: yPt + heightPt }
    from = to
    if (from < shape.pieces.length) cursor = nextPage(cursor)
  }
  return cursor
}

/** Height a chart gives up to the one that follows, where both fit on the page only if both are drawn smaller. */
function keptForNext(
  { shapes, pagePt }: Sheet,
  item: number,
  { yPt, asked }: { yPt: number; asked: number },
): number {
  const next = shapes[item + 1]
  if (next?.leastPt === undefined) return 0
  const needed = next.gapPt + next.leastPt
  const isShort = yPt + asked + needed > pagePt + ROUNDING_PT
  return isShort && yPt + shapes[item]!.leastPt! + needed <= pagePt ? needed : 0
}

const nextPage = ({ page }: Cursor): Cursor => ({ page: page + 1, yPt: 0 })

/** Whether the block's beginning, with all it must keep beside it, fits under the cursor. */
function fits(shapes: readonly Shape[], item: number, room: { cursor: Cursor; pagePt: number }): boolean {
  let needed = 0
  let at = item
  while (shapes[at]!.keepWithNext && at + 1 < shapes.length) {
    needed += shapes[at]!.gapPt + whole(shapes[at]!)
    at++
  }
  needed += shapes[at]!.gapPt + beginning(shapes[at]!)
  return room.cursor.yPt + needed <= room.pagePt + ROUNDING_PT
}

/** Sums of heights differ in their last bits. */
const ROUNDING_PT = 0.01

const whole = (shape: Shape): number => shape.headPt + sum(shape.pieces, 0, shape.pieces.length)

/** Height of the least part that may stand alone at a page's foot. */
function beginning(shape: Shape): number {
  if (shape.leastPt !== undefined) return shape.leastPt
  const few = shape.pieces.length < 2 * shape.fewestPieces ? shape.pieces.length : shape.fewestPieces
  return shape.headPt + sum(shape.pieces, 0, few)
}

/** End of the pieces that go on this page: as many as fit, leaving no lone rest, at least one. */
function cutAt(shape: Shape, from: number, roomPt: number): number {
  let to = from
  let height = shape.headPt
  while (to < shape.pieces.length && height + shape.pieces[to]! <= roomPt + ROUNDING_PT)
    height += shape.pieces[to++]!
  const left = shape.pieces.length - to
  if (left > 0 && left < shape.fewestPieces)
    to = Math.max(from + shape.fewestPieces, shape.pieces.length - shape.fewestPieces)
  return Math.min(Math.max(to, from + 1), shape.pieces.length)
}

function sum(values: readonly number[], from: number, to: number): number {
  let total = 0
  for (let i = from; i < to; i++) total += values[i]!
  return total
}
