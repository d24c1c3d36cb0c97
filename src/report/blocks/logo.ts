import { readSvg, type SvgDrawing } from '../../pictures/svg-drawing.ts'
import { PdfContext2D } from '../pdf/canvas-context.ts'
import type { Box, Pen } from '../pdf/pen.ts'
import { drawPicture, openPicture } from '../pdf/picture.ts'
import type { Block } from './block.ts'
import { figure } from './figure.ts'
import { stack } from './stack.ts'

/** Most room of a logo. */
const WIDEST_PT = 150
const TALLEST_PT = 40
/** A logo of pixels is printed no coarser than this. */
const LEAST_DPI = 150

/** The shop's logo above its name; nothing for a file that cannot be drawn, which was refused before. */
export function logo(data: Uint8Array, alt: string): Block {
  const drawn = data[0] === '<'.charCodeAt(0) ? svgLogo(data) : pictureLogo(data)
  if (!drawn) return stack([])
  const scale = Math.min(WIDEST_PT / drawn.widthPt, TALLEST_PT / drawn.heightPt, drawn.mostScale)
  return figure({
    widthPt: drawn.widthPt * scale,
    heightPt: drawn.heightPt * scale,
    alt,
    caption: '',
    drawInto: drawn.drawInto,
  })
}

interface Drawn {
  widthPt: number
  heightPt: number
  mostScale: number
  drawInto(pen: Pen, box: Box): void
}

function pictureLogo(data: Uint8Array): Drawn | undefined {
  const picture = openPicture(data)
  return (
    picture && {
      widthPt: picture.widthPx,
      heightPt: picture.heightPx,
      mostScale: 72 / LEAST_DPI,
      drawInto: (pen, box) => drawPicture(pen.doc, picture, box),
    }
  )
}

/** Lines have no pixels: an SVG fills its room. */
function svgLogo(data: Uint8Array): Drawn | undefined {
  const look = readSvg(new TextDecoder().decode(data))
  if (!look.ok) return undefined
  const { drawing } = look
  return {
    widthPt: drawing.width,
    heightPt: drawing.height,
    mostScale: Infinity,
    drawInto: (pen, box) => drawSvg(pen, drawing, box),
  }
}

function drawSvg(pen: Pen, { x, y, width, shapes }: SvgDrawing, box: Box): void {
  const scale = box.widthPt / width
  pen.doc.save()
  for (const { steps, matrix, fill, evenOdd, stroke, strokeWidth } of shapes) {
    const context = new PdfContext2D(pen.doc, pen.typeface, [
      scale,
      0,
      0,
      scale,
      box.xPt - x * scale,
      box.yPt - y * scale,
    ])
    context.transform(...matrix)
    context.beginPath()
    for (const step of steps) {
      if (step[0] === 'M') context.moveTo(step[1], step[2])
      else if (step[0] === 'L') context.lineTo(step[1], step[2])
      else if (step[0] === 'C') context.bezierCurveTo(step[1], step[2], step[3], step[4], step[5], step[6])
      else context.closePath()
    }
    if (fill !== undefined) {
      context.fillStyle = fill
      context.fill(evenOdd ? 'evenodd' : 'nonzero')
    }
    if (stroke !== undefined && strokeWidth > 0) {
      context.strokeStyle = stroke
      context.lineWidth = strokeWidth
      context.stroke()
    }
  }
  pen.doc.restore()
}
