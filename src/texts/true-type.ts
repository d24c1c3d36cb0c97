import { readFaceFile, type FaceFile } from './font-files.ts'
import { readKerning, type Kerning } from './kerning.ts'

/** What measuring text needs of a face. Lengths are in font units. */
export interface FaceMeasures {
  unitsPerEm: number
  /** Number of the glyph of a code point; 0 where the face has none. */
  glyphOf(codePoint: number): number
  advanceOf(glyph: number): number
  kernOf: Kerning
}

// Memo of pure functions: the faces as read, once a process.
const read = new Map<FaceFile, FaceMeasures>()

/** The measures of a face that ships with the program. */
export function faceMeasures(face: FaceFile): FaceMeasures {
  const known = read.get(face)
  if (known) return known
  const measures = readMeasures(readFaceFile(face))
  read.set(face, measures)
  return measures
}

/**
 * Reads the tables of a TrueType file that say how wide text is, as they lie in the file. Parsing the whole font takes
 * longer than everything else that measuring does.
 *
 * @source OpenType 1.9.1: head, hhea, hmtx, cmap formats 4 and 12
 * @throws Error for a file without one of these tables
 */
export function readMeasures(file: Uint8Array): FaceMeasures {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength)
  const head = tableAt(view, 'head')
  const widths = tableAt(view, 'hmtx')
  const longWidths = view.getUint16(tableAt(view, 'hhea') + 34)
  return {
    unitsPerEm: view.getUint16(head + 18),
    glyphOf: remembered(readCodePoints(view, tableAt(view, 'cmap'))),
    advanceOf: (glyph) => view.getUint16(widths + 4 * Math.min(glyph, longWidths - 1)),
    kernOf: readKerning(view, tableAt(view, 'GPOS')),
  }
}

/** Where a table starts. */
function tableAt(view: DataView, tag: string): number {
  for (let i = 0, at = 12; i < view.getUint16(4); i++, at += 16) {
    if (tagAt(view, at) === tag) return view.getUint32(at + 8)
  }
  throw new Error(`font: no table ${tag}`)
}

const tagAt = (view: DataView, at: number): string =>
  String.fromCharCode(view.getUint8(at), view.getUint8(at + 1), view.getUint8(at + 2), view.getUint8(at + 3))

function remembered(find: (key: number) => number): (key: number) => number {
  const known = new Map<number, number>()
  return (key) => {
    const old = known.get(key)
    if (old !== undefined) return old
    const found = find(key)
    known.set(key, found)
    return found
  }
}

/** Glyphs by code point: of the whole of Unicode where the font has such a table, else of its first plane. */
function readCodePoints(view: DataView, cmap: number): (codePoint: number) => number {
  const tables = Array.from(
    { length: view.getUint16(cmap + 2) },
    (_, i) => cmap + view.getUint32(cmap + 4 + 8 * i + 4),
  )
  const whole = tables.find((at) => view.getUint16(at) === 12)
  if (whole !== undefined) return (codePoint) => groupedGlyph(view, whole, codePoint)
  const plane = tables.find((at) => view.getUint16(at) === 4)
  if (plane === undefined) throw new Error('font: no cmap of format 4 or 12')
  return (codePoint) => segmentGlyph(view, plane, codePoint)
}

function groupedGlyph(view: DataView, table: number, codePoint: number): number {
  const groups = view.getUint32(table + 12)
  for (let i = 0, at = table + 16; i < groups && view.getUint32(at) <= codePoint; i++, at += 12) {
    if (codePoint <= view.getUint32(at + 4)) return view.getUint32(at + 8) + codePoint - view.getUint32(at)
  }
  return 0
}

function segmentGlyph(view: DataView, table: number, codePoint: number): number {
  const twice = view.getUint16(table + 6)
  const [ends, starts] = [table + 14, table + 16 + twice]
  const [deltas, offsets] = [starts + twice, starts + 2 * twice]
  for (let i = 0; i < twice; i += 2) {
    if (codePoint > view.getUint16(ends + i)) continue
    const start = view.getUint16(starts + i)
    if (codePoint < start) return 0
    const offset = view.getUint16(offsets + i)
    const glyph = offset === 0 ? codePoint : view.getUint16(offsets + i + offset + 2 * (codePoint - start))
    return glyph === 0 ? 0 : (glyph + view.getUint16(deltas + i)) & 0xffff
  }
  return 0
}
