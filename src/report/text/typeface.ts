import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import type { Font, Run } from 'fontkit'

/** Cuts of the one family in use. */
export type Face = 'regular' | 'semibold' | 'italic'

const FILES: Readonly<Record<Face, string>> = {
  regular: '400Regular/SourceSans3_400Regular.ttf',
  semibold: '600SemiBold/SourceSans3_600SemiBold.ttf',
  italic: '400Regular_Italic/SourceSans3_400Regular_Italic.ttf',
}
export const FACES = Object.keys(FILES) as readonly Face[]

/** Ligatures would come out of a search as one odd sign. */
const FEATURES = { liga: false }

/** Shaped text of every face, for one report. Widths are in points. */
export interface Typeface {
  /** Width of a text in one line, pt. The text is drawn as it stands: clean it first. */
  width(text: string, style: { face: Face; sizePt: number }): number
  has(codePoint: number): boolean
  /** Font objects to register with pdfkit; they share this typeface's shaped words. */
  fonts: Readonly<Record<Face, Font>>
}

type Parsed = Readonly<Record<Face, Font>>
let parsed: Promise<Parsed> | undefined

/**
 * A typeface of its own for each report: fontkit remembers with which letter a glyph was first asked for,
 * so a shared one would let an earlier report of the same process change the bytes of a later one.
 */
export async function openTypeface(): Promise<Typeface> {
  parsed ??= parseFaces()
  const base = await parsed
  const shaped = Object.fromEntries(FACES.map((face) => [face, shaper(base[face])])) as Record<Face, Shaper>
  return {
    width: (text, { face, sizePt }) => (shaped[face].width(text) * sizePt) / base[face].unitsPerEm,
    has: (codePoint) => FACES.every((face) => base[face].hasGlyphForCodePoint(codePoint)),
    fonts: { regular: shaped.regular.font, semibold: shaped.semibold.font, italic: shaped.italic.font },
  }
}

interface Shaper { font: Font; width: (text: string) => number }

function shaper(base: Font): Shaper {
  const runs = new Map<string, Run>()
  const font = Object.create(base, { _glyphs: { value: {}, writable: true } }) as Font
  for (let ascii = 0x20; ascii < 0x7f; ascii++) font.glyphForCodePoint(ascii)
  const shape = (text: string): Run => {
    const known = runs.get(text)
    if (known) return known
    const run = base.layout.call(font, text, FEATURES)
    runs.set(text, run)
    return run
  }
  Object.defineProperty(font, 'layout', { value: shape })
  const width = (text: string) => wordsOf(text).reduce((sum, word) => sum + shape(word).advanceWidth, 0)
  return { font, width }
}

/** Words with the space behind them: pdfkit shapes in the same pieces, so each is shaped once. */
const wordsOf = (text: string): readonly string[] => text.match(/[^ ]* |[^ ]+$/g) ?? []

async function parseFaces(): Promise<Parsed> {
  const { create } = await import('fontkit')
  const home = createRequire(import.meta.url)
  const entries = await Promise.all(FACES.map(async (face) => {
    const file = home.resolve(`@expo-google-fonts/source-sans-3/${FILES[face]}`)
    return [face, create(await readFile(file))] as const
  }))
  return Object.fromEntries(entries) as Record<Face, Font>
}
