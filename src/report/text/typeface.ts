import type { Font } from 'fontkit'
import { readFaceFile } from '../../texts/font-files.ts'
import { faceMeasures } from '../../texts/true-type.ts'
import { faceTables, shaper, type FaceTables, type Shape } from './shape.ts'

/** Cuts of the one family in use. */
const FACES = ['regular', 'semibold', 'italic'] as const
export type Face = (typeof FACES)[number]

/** Shaped text of every face, for one report. */
export interface Typeface {
  /** Width of a text in one line, pt. The text is drawn as it stands: clean it first. */
  width(text: string, style: { face: Face; sizePt: number }): number
  has(codePoint: number): boolean
  /** Font objects for pdfkit, which shape as `width` measures. */
  fonts: Readonly<Record<Face, Font>>
}

interface Parsed {
  font: Font
  tables: FaceTables
}
/** The fonts as read, and memos of their tables; nothing a report does changes what another sees. */
let parsed: Promise<Readonly<Record<Face, Parsed>>> | undefined

/** A typeface for one report; the files are read and parsed once a process. */
export async function openTypeface(): Promise<Typeface> {
  parsed ??= parseFaces()
  const base = await parsed
  const shapes = byFace((face) => shaper(base[face].font, base[face].tables))
  return {
    width: (text, { face, sizePt }) => (widthOf(text, shapes[face]) * sizePt) / base[face].font.unitsPerEm,
    has: inEveryFace,
    fonts: byFace((face) => Object.create(base[face].font, { layout: { value: shapes[face] } }) as Font),
  }
}

const byFace = <T>(make: (face: Face) => T): Record<Face, T> => ({
  regular: make('regular'),
  semibold: make('semibold'),
  italic: make('italic'),
})

/** Whether every cut has a sign, as far as asked: a memo of a pure function. Signs beyond the basic plane are asked anew. */
const everywhere = new Uint8Array(0x10000)
const [YES, NO] = [1, 2]

function inEveryFace(codePoint: number): boolean {
  const known = everywhere[codePoint]
  if (known === YES || known === NO) return known === YES
  const has = FACES.every((face) => faceMeasures(face).glyphOf(codePoint) !== 0)
  everywhere[codePoint] = has ? YES : NO // nothing is kept beyond the array's end
  return has
}

/** Width in font units, word by word with the space behind each: pdfkit shapes in the same pieces. */
function widthOf(text: string, shape: Shape): number {
  let sum = 0
  for (const word of wordsOf(text)) sum += shape(word).advanceWidth
  return sum
}

/** The words of a text, each with the space behind it. */
export function wordsOf(text: string): string[] {
  const words: string[] = []
  for (let from = 0; from < text.length;) {
    const space = text.indexOf(' ', from)
    const to = space < 0 ? text.length : space + 1
    words.push(text.slice(from, to))
    from = to
  }
  return words
}

async function parseFaces(): Promise<Record<Face, Parsed>> {
  const { create } = await import('fontkit')
  return byFace((face) => {
    const font = create(readFaceFile(face))
    if (font.unitsPerEm !== PDF_UNITS_PER_EM)
      throw new Error(`${face}: ${font.unitsPerEm} units per em, not ${PDF_UNITS_PER_EM}`)
    return { font, tables: faceTables(faceMeasures(face)) }
  })
}

/** pdfkit scales shaped positions in place to 1000 units per em; with fonts of that measure the scaling changes nothing. */
const PDF_UNITS_PER_EM = 1000
