import { crc32 } from 'node:zlib'
import { MOST_PIXELS, MOST_UNPACKED_PIXELS, type PictureLook } from './picture-look.ts'

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]
/** Length, name and checksum of a chunk. */
const FRAME_BYTES = 12
const HEAD_BYTES = 13
/** Chunks that are read; what else a file holds is passed over, its checksum too. */
const READ: ReadonlySet<string> = new Set(['IHDR', 'PLTE', 'tRNS', 'IDAT', 'IEND'])

export const isPng = (data: Uint8Array): boolean => SIGNATURE.every((byte, i) => data[i] === byte)

/** Colour types and the bit depths each allows. @source W3C PNG (second edition), table 11.1 */
const DEPTHS: Readonly<Record<number, readonly number[]>> = {
  0: [1, 2, 4, 8, 16],
  2: [8, 16],
  3: [1, 2, 4, 8],
  4: [8, 16],
  6: [8, 16],
}

/** A PNG's own words: its header, palette, transparency and packed pixels. */
export interface PngParts {
  widthPx: number
  heightPx: number
  bits: number
  /** 0 grey, 2 colour, 3 palette, 4 grey with opacity, 6 colour with opacity. */
  type: 0 | 2 | 3 | 4 | 6
  interlaced: boolean
  palette: Uint8Array | undefined
  transparency: Uint8Array | undefined
  packed: Uint8Array
}

/** A plain PNG goes into a report as it is packed; one with opacity or interlace has to be unpacked for it. */
export const isPlain = ({ interlaced, transparency, type }: PngParts): boolean =>
  !interlaced && transparency === undefined && type <= 3

/** Reads a PNG's head; the chunks are walked to the end and held against their checksums, the pixels not unpacked. */
export function readPngHead(data: Uint8Array): PictureLook {
  const parts = pngParts(data)
  if (typeof parts === 'string') return { ok: false, why: parts }
  const { widthPx, heightPx, type } = parts
  const most = isPlain(parts) ? MOST_PIXELS : MOST_UNPACKED_PIXELS
  if (widthPx * heightPx > most) return { ok: false, why: 'too-large', most }
  return {
    ok: true,
    head: { format: 'png', widthPx, heightPx, orientation: 1, colours: type === 2 || type === 6 ? 3 : 1 },
  }
}

/**
 * The parts of a PNG, or what is wrong with it.
 * @source W3C PNG (second edition), 5.3 (chunk layout), 5.5 (checksum), 11.2 (critical chunks), 11.3.2.1 (tRNS)
 */
export function pngParts(data: Uint8Array): PngParts | 'broken' | 'cut-off' | 'damaged' {
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength)
  const chunks = new Map<string, Uint8Array>()
  // Pieces of the packed pixels are laid together as they come: a list of millions of empty ones would fill the memory.
  const packed = new Uint8Array(data.length)
  let packedBytes = 0
  let at = SIGNATURE.length
  for (let name = ''; name !== 'IEND';) {
    if (at + FRAME_BYTES > data.length) return 'cut-off'
    const length = view.getUint32(at)
    if (at + FRAME_BYTES + length > data.length) return 'cut-off'
    name = String.fromCharCode(...data.subarray(at + 4, at + 8))
    if (at === SIGNATURE.length && (name !== 'IHDR' || length !== HEAD_BYTES)) return 'broken'
    const body = at + 8 + length
    if (READ.has(name)) {
      if (crc32(data.subarray(at + 4, body)) !== view.getUint32(body)) return 'damaged'
      const content = data.subarray(at + 8, body)
      if (name === 'IDAT') packed.set(content, packedBytes)
      if (name === 'IDAT') packedBytes += length
      else if (!chunks.has(name)) chunks.set(name, content)
    }
    at = body + 4
  }
  return headOf(chunks, packed.subarray(0, packedBytes))
}

function headOf(chunks: ReadonlyMap<string, Uint8Array>, packed: Uint8Array): PngParts | 'broken' {
  const head = chunks.get('IHDR')!
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength)
  const [widthPx, heightPx] = [view.getUint32(0), view.getUint32(4)]
  const [bits, type, packing, filtering, interlace] = [head[8]!, head[9]!, head[10], head[11], head[12]!]
  const palette = chunks.get('PLTE')
  const known = DEPTHS[type]?.includes(bits) && packing === 0 && filtering === 0 && interlace <= 1
  if (!known || widthPx === 0 || heightPx === 0 || (type === 3 && !palette?.length)) return 'broken'
  return {
    widthPx,
    heightPx,
    bits,
    type: type as PngParts['type'],
    interlaced: interlace === 1,
    palette,
    transparency: chunks.get('tRNS'),
    packed,
  }
}
