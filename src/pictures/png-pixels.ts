import { createInflate, inflateSync } from 'node:zlib'
import type { PngParts } from './png-head.ts'

/** Samples of a pixel by colour type. */
const SAMPLES = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 } as const
/** Adam7: the first column and row of each pass, and the steps between. @source W3C PNG, 8.2 */
const PASSES = [
  [0, 0, 8, 8],
  [4, 0, 8, 8],
  [0, 4, 4, 8],
  [2, 0, 4, 4],
  [0, 2, 2, 4],
  [1, 0, 2, 2],
  [0, 1, 1, 2],
] as const

/** One pass over the picture: all of it, or an Adam7 grid. */
interface Pass {
  x: number
  y: number
  dx: number
  dy: number
  columns: number
  rows: number
}

/** Bytes of all rows, each with its filter byte, as the head announces them. */
const unpackedBytes = (parts: PngParts): number =>
  passesOf(parts).reduce((sum, pass) => sum + pass.rows * (1 + rowBytes(parts, pass.columns)), 0)

/**
 * The rows of a PNG, each with its filter byte, unpacked. Undefined where they are damaged (their checksum, Adler-32,
 * counts), too few or too many. Takes no more memory than the head announces, however much the packed data would give.
 */
export function unpackRows(parts: PngParts): Uint8Array | undefined {
  const expected = unpackedBytes(parts)
  try {
    const rows = inflateSync(parts.packed, { maxOutputLength: expected, chunkSize: expected + 64 })
    return rows.length === expected ? rows : undefined
  } catch {
    return undefined // the fault is in the file; the caller says so
  }
}

/** Whether the packed pixels unpack to exactly what the head announces. Piece by piece: memory does not grow with the picture. */
export async function isWhole(parts: PngParts): Promise<boolean> {
  let left = unpackedBytes(parts)
  const inflate = createInflate()
  try {
    inflate.end(parts.packed)
    for await (const piece of inflate) {
      left -= (piece as Buffer).length
      if (left < 0) return false
    }
    return left === 0
  } catch {
    return false // the fault is in the file; the caller says so
  } finally {
    inflate.destroy()
  }
}

/**
 * A PNG as plain pixels of red, green and blue, 8 bit each, laid on white where they are not opaque.
 * Undefined where the data are damaged.
 */
export function opaquePixels(parts: PngParts): Uint8Array | undefined {
  const rows = unpackRows(parts)
  if (!rows) return undefined
  const pixels = new Uint8Array(parts.widthPx * parts.heightPx * 3)
  let at = 0
  for (const pass of passesOf(parts)) {
    const length = rowBytes(parts, pass.columns)
    let above = new Uint8Array(length)
    for (let row = 0; row < pass.rows; row++) {
      const line = rows.slice(at + 1, at + 1 + length)
      if (!unfilter(rows[at]!, { line, above, step: Math.max(1, (SAMPLES[parts.type] * parts.bits) >> 3) }))
        return undefined
      paintRow(parts, line, { pixels, pass, y: pass.y + row * pass.dy })
      above = line
      at += 1 + length
    }
  }
  return pixels
}

function passesOf({ widthPx, heightPx, interlaced }: PngParts): Pass[] {
  if (!interlaced) return [{ x: 0, y: 0, dx: 1, dy: 1, columns: widthPx, rows: heightPx }]
  return PASSES.map(([x, y, dx, dy]) => ({
    x,
    y,
    dx,
    dy,
    columns: Math.ceil((widthPx - x) / dx),
    rows: Math.ceil((heightPx - y) / dy),
  })).filter(({ columns, rows }) => columns > 0 && rows > 0)
}

const rowBytes = ({ type, bits }: PngParts, columns: number): number =>
  Math.ceil((columns * SAMPLES[type] * bits) / 8)

/** Takes a row's filter off in place; false for a filter that does not exist. @source W3C PNG, 9.2 */
function unfilter(
  filter: number,
  { line, above, step }: { line: Uint8Array; above: Uint8Array; step: number },
): boolean {
  for (let i = 0; i < line.length; i++) {
    const left = i >= step ? line[i - step]! : 0
    const up = above[i]!
    const before = i >= step ? above[i - step]! : 0
    if (filter === 1) line[i]! += left
    else if (filter === 2) line[i]! += up
    else if (filter === 3) line[i]! += (left + up) >> 1
    else if (filter === 4) line[i]! += nearest(left, up, before)
  }
  return filter <= 4
}

/** The Paeth predictor. @source W3C PNG, 9.4 */
function nearest(left: number, up: number, before: number): number {
  const guess = left + up - before
  const [toLeft, toUp, toBefore] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - before)]
  if (toLeft <= toUp && toLeft <= toBefore) return left
  return toUp <= toBefore ? up : before
}

/** Colours of one row, laid on white, into the picture. Runs for every pixel: no object is made for one. */
function paintRow(
  parts: PngParts,
  line: Uint8Array,
  { pixels, pass, y }: { pixels: Uint8Array; pass: Pass; y: number },
): void {
  const { type, bits, palette, transparency } = parts
  const samples = SAMPLES[type]
  const most = 2 ** bits - 1
  const isColour = type === 2 || type === 6
  const hasOpacity = type === 4 || type === 6
  const clear = hasOpacity ? undefined : clearColour(parts)
  for (let column = 0; column < pass.columns; column++) {
    const from = column * samples
    const into = (y * parts.widthPx + pass.x + column * pass.dx) * 3
    const first = sampleAt(bits, line, from)
    if (type === 3) {
      const opacity = (transparency?.[first] ?? WHITE) / WHITE
      for (let i = 0; i < 3; i++) pixels[into + i] = onWhite(palette![3 * first + i] ?? 0, opacity)
      continue
    }
    const second = isColour ? sampleAt(bits, line, from + 1) : first
    const third = isColour ? sampleAt(bits, line, from + 2) : first
    const isClear = clear !== undefined && first === clear[0] && second === clear[1] && third === clear[2]
    const opacity = hasOpacity ? sampleAt(bits, line, from + samples - 1) / most : isClear ? 0 : 1
    pixels[into] = onWhite((first / most) * WHITE, opacity)
    pixels[into + 1] = onWhite((second / most) * WHITE, opacity)
    pixels[into + 2] = onWhite((third / most) * WHITE, opacity)
  }
}

const WHITE = 255
const onWhite = (value: number, opacity: number): number => Math.round(WHITE + (value - WHITE) * opacity)

/** A sample as stored, at its own depth. */
function sampleAt(bits: number, line: Uint8Array, index: number): number {
  if (bits === 8) return line[index]!
  if (bits === 16) return (line[2 * index]! << 8) | line[2 * index + 1]!
  const bit = index * bits
  return (line[bit >> 3]! >> (8 - bits - (bit & 7))) & ((1 << bits) - 1)
}

/** The one colour that a PNG without opacity may name as clear; a grey as three alike. */
function clearColour({ type, transparency }: PngParts): readonly number[] | undefined {
  if (!transparency || type === 3 || transparency.length < 2 * SAMPLES[type]) return undefined
  const view = new DataView(transparency.buffer, transparency.byteOffset, transparency.byteLength)
  return [0, 1, 2].map((i) => view.getUint16(type === 2 ? 2 * i : 0))
}
