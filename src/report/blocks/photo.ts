import { drawPicture, openPicture } from '../pdf/picture.ts'
import type { Block } from './block.ts'
import { figure } from './figure.ts'
import { paragraph } from './paragraph.ts'
import { stack } from './stack.ts'

/** A picture is printed no coarser than this: enlarged further it would blur. */
const LEAST_DPI = 110
/** Tallest a photo may stand, so that three rows of them share a page. */
const TALLEST_PT = 200

/**
 * A photo, upright, with its caption. One that cannot be printed (damaged behind its head) is replaced by `unprintable`,
 * never left out in silence; what the head tells was refused with the job.
 */
export function photo(content: {
  data: Uint8Array | undefined
  alt: string
  caption: string
  unprintable: string
}): Block {
  const picture = content.data && openPicture(content.data)
  if (!picture)
    return stack([
      paragraph(content.unprintable, { color: 'quiet' }),
      paragraph(content.caption, { face: 'italic' }),
    ])
  const [widest, tallest] = [(picture.widthPx * 72) / LEAST_DPI, (picture.heightPx * 72) / LEAST_DPI]
  const scale = Math.min(1, TALLEST_PT / tallest)
  return figure({
    widthPt: widest * scale,
    heightPt: tallest * scale,
    alt: content.alt,
    caption: content.caption,
    drawInto: (pen, box) => drawPicture(pen.doc, picture, box),
  })
}
