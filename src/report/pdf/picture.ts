import type PDFDocument from 'pdfkit'
import type { PdfRef } from 'pdfkit'
import { readPictureHead, uprightSize } from '../../pictures/picture-head.ts'
import type { PictureHead } from '../../pictures/picture-look.ts'
import { isPlain, pngParts, type PngParts } from '../../pictures/png-head.ts'
import { opaquePixels, unpackRows } from '../../pictures/png-pixels.ts'
import type { Box } from './pen.ts'
import { num } from './show-text.ts'

/**
 * A picture ready for a page. Written here because pdfkit's own way packs with the machine's zlib (other bytes from one
 * Node to the next) and fails outside any catch on damaged data.
 */
export interface Picture {
  widthPx: number
  heightPx: number
  /** Dictionary entries and data of the image XObject; pixels without a Filter are packed with the rest of the file. */
  entries: Readonly<Record<string, unknown>>
  data: Uint8Array
  orientation: number
}

/** Opens a JPEG or PNG; undefined where its bytes are no picture that can be printed. Size as seen upright. */
export function openPicture(bytes: Uint8Array): Picture | undefined {
  const look = readPictureHead(bytes)
  if (!look.ok) return undefined
  const stored = look.head.format === 'jpeg' ? jpegImage(look.head, bytes) : pngImage(bytes)
  return stored && { ...stored, ...uprightSize(look.head), orientation: look.head.orientation }
}

type Stored = Pick<Picture, 'entries' | 'data'>

const common = ({ widthPx, heightPx }: { widthPx: number; heightPx: number }) => ({
  Type: 'XObject',
  Subtype: 'Image',
  Width: widthPx,
  Height: heightPx,
})

/** A JPEG goes in as it is. */
const jpegImage = (head: PictureHead, data: Uint8Array): Stored => ({
  entries: {
    ...common(head),
    BitsPerComponent: 8,
    ColorSpace: head.colours === 3 ? 'DeviceRGB' : 'DeviceGray',
    Filter: 'DCTDecode',
  },
  data,
})

/** A plain PNG goes in as it is packed, once shown to unpack; one with opacity or interlace as pixels on white. */
function pngImage(bytes: Uint8Array): Stored | undefined {
  const parts = pngParts(bytes)
  if (typeof parts === 'string') return undefined
  if (!isPlain(parts)) {
    const data = opaquePixels(parts)
    return data && { entries: { ...common(parts), BitsPerComponent: 8, ColorSpace: 'DeviceRGB' }, data }
  }
  if (!unpackRows(parts)) return undefined
  const Colors = parts.type === 2 ? 3 : 1
  return {
    entries: {
      ...common(parts),
      BitsPerComponent: parts.bits,
      ColorSpace: colourSpace(parts),
      Filter: 'FlateDecode',
      DecodeParms: { Predictor: PNG_PREDICTOR, Colors, BitsPerComponent: parts.bits, Columns: parts.widthPx },
    },
    data: parts.packed,
  }
}

/** Each row says its own filter. @source ISO 32000-1, table 10 */
const PNG_PREDICTOR = 15

function colourSpace({ type, palette }: PngParts): unknown {
  if (type !== 3) return type === 2 ? 'DeviceRGB' : 'DeviceGray'
  return ['Indexed', 'DeviceRGB', Math.floor(palette!.length / 3) - 1, Buffer.from(palette!)]
}

/** Draws a picture upright into a box. */
export function drawPicture(doc: PDFDocument, picture: Picture, box: Box): void {
  const ref: PdfRef = doc.ref({ ...picture.entries })
  ref.end(picture.data)
  const name = `Picture${ref.id}`
  doc.page.xobjects[name] = ref
  doc.addContent(
    `q ${matrixOf(picture.orientation, box)
      .map((part) => num(part, 3))
      .join(' ')} cm /${name} Do Q`,
  )
}

/**
 * Where the stored row (s, 0..1 to the right) and line (t, 0..1 downwards) of each orientation lie on the upright picture:
 * x = s-part, t-part and start; y alike.
 * @source EXIF 2.3, tag 0x0112: which side the 0th row and the 0th column are
 */
const TURNS: readonly (readonly [readonly [number, number, number], readonly [number, number, number]])[] = [
  [
    [1, 0, 0],
    [0, 1, 0],
  ],
  [
    [-1, 0, 1],
    [0, 1, 0],
  ],
  [
    [-1, 0, 1],
    [0, -1, 1],
  ],
  [
    [1, 0, 0],
    [0, -1, 1],
  ],
  [
    [0, 1, 0],
    [1, 0, 0],
  ],
  [
    [0, -1, 1],
    [1, 0, 0],
  ],
  [
    [0, -1, 1],
    [-1, 0, 1],
  ],
  [
    [0, 1, 0],
    [-1, 0, 1],
  ],
]

/** PDF's unit square (0..1, upwards) of the stored picture onto the box (downwards from the page's top). */
export function matrixOf(orientation: number, { xPt, yPt, widthPt, heightPt }: Box): readonly number[] {
  const [[xs, xt, x0], [ys, yt, y0]] = TURNS[orientation - 1]!
  return [
    widthPt * xs,
    heightPt * ys,
    -widthPt * xt,
    -heightPt * yt,
    xPt + widthPt * (x0 + xt),
    yPt + heightPt * (y0 + yt),
  ]
}
