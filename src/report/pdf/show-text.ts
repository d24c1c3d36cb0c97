import type PDFDocument from 'pdfkit'
import type { EmbeddedFont, GlyphPosition } from 'pdfkit'
import { wordsOf } from '../text/typeface.ts'

/** a b c d e f of a PDF matrix. */
export type Matrix = readonly [number, number, number, number, number, number]

const POWERS = [1, 10, 100, 1000, 10_000, 100_000] as const

/** A number as PDF writes it, with at most so many decimals (5 at most): no exponent, no minus zero. */
export const num = (value: number, decimals = 2): string =>
  String(Math.round(value * POWERS[decimals]!) / POWERS[decimals]! + 0)

/**
 * Draws one line of clean text whose baseline starts at the matrix's origin, in the current fill colour.
 * Written out here because pdfkit's own measures again and saves and restores around every line.
 *
 * @param matrix  text space to the page's top-left coordinates; letters stand upright for [1 0 0 1 x y]
 */
export function showText(
  doc: PDFDocument,
  text: string,
  how: { fontName: string; sizePt: number; matrix: Matrix },
): void {
  if (text === '') return
  const font = doc.font(how.fontName)._font
  doc.page.fonts[font.id] ??= font.ref()
  const [a, b, c, d, e, f] = how.matrix
  const matrix = [a, b, -c, -d]
    .map((part) => num(part, 5))
    .concat(num(e), num(f))
    .join(' ')
  doc.addContent(
    `BT /${font.id} ${num(how.sizePt)} Tf ${matrix} Tm ${lineOperators(font, text, how.sizePt)} ET`,
  )
}

/** Words of a font as they stand in a line's string: most words of a report stand in it more than once. */
const written = new WeakMap<EmbeddedFont, Map<string, string | undefined>>()

/** A line's operators: its words one behind the other in one string, or glyph by glyph where one has marks set off. */
function lineOperators(font: EmbeddedFont, text: string, sizePt: number): string {
  const known = written.get(font) ?? new Map<string, string | undefined>()
  written.set(font, known)
  let line = ''
  for (const word of wordsOf(text)) {
    if (!known.has(word)) known.set(word, wordInString(...font.encode(word)))
    const part = known.get(word)
    if (part === undefined) return glyphOperators(...font.encode(text), sizePt)
    line += part
  }
  return `[<${line}>] TJ`
}

/** A word's glyphs with the kerning between them, without the brackets around; undefined where a glyph is set off its place, or the word ends in a shift. */
function wordInString(glyphs: readonly string[], positions: readonly GlyphPosition[]): string | undefined {
  let part = ''
  for (let i = 0; i < glyphs.length; i++) {
    const { xAdvance, advanceWidth, xOffset, yOffset } = positions[i]!
    const kern = xAdvance - advanceWidth
    if (xOffset !== 0 || yOffset !== 0 || (kern !== 0 && i === glyphs.length - 1)) return undefined
    part += kern === 0 ? glyphs[i]! : `${glyphs[i]!}>${num(-kern)}<`
  }
  return part
}

/** Glyphs with their kerning; a mark set off from its base is drawn by a shift and back. */
function glyphOperators(
  glyphs: readonly string[],
  positions: readonly GlyphPosition[],
  sizePt: number,
): string {
  const operators: string[] = []
  let array = ''
  let hex = ''
  const closeHex = () => {
    if (hex !== '') array += `<${hex}>`
    hex = ''
  }
  const closeArray = () => {
    closeHex()
    if (array !== '') operators.push(`[${array}] TJ`)
    array = ''
  }
  positions.forEach((position, i) => {
    const { xOffset, yOffset } = position
    if (xOffset !== 0) {
      closeHex()
      array += num(-xOffset)
    }
    if (yOffset !== 0) {
      closeArray()
      operators.push(`${num((yOffset * sizePt) / 1000)} Ts`)
    }
    hex += glyphs[i]!
    if (yOffset !== 0) {
      closeArray()
      operators.push('0 Ts')
    }
    const kern = position.xAdvance - position.advanceWidth - xOffset
    if (kern !== 0) {
      closeHex()
      array += num(-kern)
    }
  })
  closeArray()
  return operators.join(' ')
}
