import type { StructElement } from 'pdfkit'
import type { Shape } from '../layout/break-pages.ts'
import type { Pen } from '../pdf/pen.ts'
import { cleanText } from '../text/clean-text.ts'
import type { Typeface } from '../text/typeface.ts'
import { wrap } from '../text/wrap.ts'
import { SIZES } from '../theme.ts'
import type { Style } from '../pdf/pen.ts'

/** Where and which part of a block is to be drawn. */
export interface Part {
  xPt: number
  yPt: number
  widthPt: number
  /** Height given; less than asked for only where the shape names a least height. */
  heightPt: number
  /** Pieces from (inclusive) to (exclusive). */
  from: number
  to: number
  first: boolean
  last: boolean
  /** Page on which a section begins, counted from 1. */
  pageOf: (anchor: string) => number | undefined
  /** Element of the structure tree the block belongs under. */
  parent: StructElement
}

/** A block laid out for a width: its heights for the page breaker, and its drawing. Drawn once, part after part. */
export interface Laid {
  shape: Shape
  draw(pen: Pen, part: Part): void | Promise<void>
}

/** Room a block is laid out in. `heightPt` is the most a piece may take: the body of one page. */
interface Room {
  widthPt: number
  heightPt: number
  /** Type of running text; small unless said. */
  type?: 'fine' | 'small'
}

/** Something that stands on its own in the text: a paragraph, a table, a figure. */
export interface Block {
  /** Lays the block out in the section's own type, unless the block asks for another. */
  measure(room: Room, typeface: Typeface): Laid
}

/** Shape of a block that is never cut. */
export const uncut = (heightPt: number, gapPt: number): Shape => ({
  pieces: [heightPt],
  headPt: 0,
  gapPt,
  keepWithNext: false,
  fewestPieces: 1,
})

/** Lines of a text in a style, as drawn. */
export function linesOf(
  text: string,
  widthPt: number,
  how: { style: Pick<Style, 'face' | 'size'>; typeface: Typeface },
): readonly string[] {
  const {
    style: { face, size },
    typeface,
  } = how
  return wrap(cleanText(text, typeface.has), widthPt, (line) =>
    typeface.width(line, { face, sizePt: SIZES[size].sizePt }),
  )
}
