import type { OpenedImage } from 'pdfkit'
import type { Pen } from '../pdf/pen.ts'
import { imageSize } from './image-size.ts'
import { figure } from './figure.ts'
import { stack } from './stack.ts'
import { paragraph } from './paragraph.ts'
import type { Block } from './block.ts'

/** A picture is printed no coarser than this: enlarged further it would blur. */
const LEAST_DPI = 110
/** Tallest a photo may stand, so that three rows of them share a page. */
const TALLEST_PT = 200

/**
 * A photo, upright, with its caption. One that cannot be printed (not a JPEG or PNG, broken, or in ink colours, which
 * PDF/A refuses here) is replaced by `unprintable`, never left out in silence.
 */
export function photo(content: { data: Uint8Array | undefined; alt: string; caption: string; unprintable: string }): Block {
  const size = content.data && imageSize(content.data)
  const { data } = content
  if (!size || !data) return stack([paragraph(content.unprintable, { color: 'quiet' }), paragraph(content.caption, { face: 'italic' })])
  const widest = (size.widthPx * 72) / LEAST_DPI
  const scale = Math.min(1, TALLEST_PT / ((size.heightPx * 72) / LEAST_DPI))
  return figure({
    widthPt: widest * scale, heightPt: ((size.heightPx * 72) / LEAST_DPI) * scale, alt: content.alt, caption: content.caption,
    drawInto(pen: Pen, box) {
      const image: OpenedImage = pen.doc.openImage(data)
      pen.doc.image(image, box.xPt, box.yPt, { width: box.widthPt, height: box.heightPt })
    },
  })
}
