import type { Pen } from '../pdf/pen.ts'
import { SIZES } from '../theme.ts'
import { linesOf, type Block } from './block.ts'

const GAP_PT = 12
const CAPTION_GAP_PT = 4
const CAPTION = { size: 'small', face: 'italic', color: 'quiet' } as const

/** A picture made by `drawInto`, with its caption below and a text that stands for it. */
export interface FigureContent {
  widthPt: number
  heightPt: number
  alt: string
  caption: string
  drawInto(
    pen: Pen,
    box: { xPt: number; yPt: number; widthPt: number; heightPt: number },
  ): void | Promise<void>
  /** May let the text after it go first when it does not fit. */
  floats?: boolean
  /** Share of its size down to which it may be drawn to fill a page's foot; 1 unless said. */
  leastScale?: number
}

/** Picture and caption, never parted. A picture wider or taller than its room is made smaller, never larger. */
export function figure(content: FigureContent): Block {
  return {
    measure({ widthPt, heightPt }, typeface) {
      const caption =
        content.caption === '' ? [] : linesOf(content.caption, widthPt, { style: CAPTION, typeface })
      const captionPt = caption.length === 0 ? 0 : CAPTION_GAP_PT + caption.length * SIZES.small.leadPt
      const scale = Math.min(1, widthPt / content.widthPt, (heightPt - captionPt) / content.heightPt)
      const size = { widthPt: content.widthPt * scale, heightPt: content.heightPt * scale }
      return {
        shape: {
          pieces: [size.heightPt + captionPt],
          headPt: 0,
          gapPt: GAP_PT,
          keepWithNext: false,
          fewestPieces: 1,
          floats: content.floats ?? false,
          leastPt: size.heightPt * (content.leastScale ?? 1) + captionPt,
        },
        async draw(pen, { xPt, yPt, heightPt: givenPt, parent }) {
          const smaller = Math.min(1, (givenPt - captionPt) / size.heightPt)
          const box = { xPt, yPt, widthPt: size.widthPt * smaller, heightPt: size.heightPt * smaller }
          const element = pen.element(parent, 'Figure', {
            alt: content.alt,
            placement: 'Block',
            bbox: [xPt, yPt, xPt + (captionPt > 0 ? widthPt : box.widthPt), yPt + box.heightPt + captionPt],
          })
          await pen.taggedAsync(element, async () => content.drawInto(pen, box))
          if (caption.length > 0) {
            // A caption is the first or last child of what it belongs to (ISO 32000-1, 14.8.4.3.1).
            const below = pen.element(element, 'Caption')
            pen.tagged(below, () =>
              pen.lines(caption, { xPt, yPt: yPt + box.heightPt + CAPTION_GAP_PT }, CAPTION),
            )
            below.end()
          }
          element.end()
        },
      }
    },
  }
}
