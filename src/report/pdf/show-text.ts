import type PDFDocument from 'pdfkit'
import type { GlyphPosition } from 'pdfkit'

/** a b c d e f of a PDF matrix. */
export type Matrix = readonly [number, number, number, number, number, number]

const POWERS = [1, 10, 100, 1000, 10_000, 100_000] as const

/** A number as PDF writes it, with at most so many decimals (5 at most): no exponent, no minus zero. */
export const num = (value: number, decimals = 2): string => String(Math.round(value * POWERS[decimals]!) / POWERS[decimals]! + 0)

/**
 * Draws one line of clean text whose baseline starts at the matrix's origin, in the current fill colour.
 * Written out here because pdfkit's own measures again and saves and restores around every line.
 *
 * @param matrix  text space to the page's top-left coordinates; letters stand upright for [1 0 0 1 x y]
 */
export function showText(doc: PDFDocument, text: string, how: { fontName: string; sizePt: number; matrix: Matrix }): void {
  if (text === '') return
  const font = doc.font(how.fontName)._font
  doc.page.fonts[font.id] ??= font.ref()
  const [a, b, c, d, e, f] = how.matrix
  const [glyphs, positions] = font.encode(text)
  const matrix = [a, b, -c, -d].map((part) => num(part, 5)).concat(num(e), num(f)).join(' ')
  doc.addContent(`BT /${font.id} ${num(how.sizePt)} Tf ${matrix} Tm ${glyphOperators(glyphs, positions, how.sizePt)} ET`)
}

/** Glyphs with their kerning; a mark set off from its base is drawn by a shift and back. */
function glyphOperators(glyphs: readonly string[], positions: readonly GlyphPosition[], sizePt: number): string {
  const operators: string[] = []
  let array = ''
  let hex = ''
  const closeHex = () => { if (hex !== '') array += `<${hex}>`; hex = '' }
  const closeArray = () => { closeHex(); if (array !== '') operators.push(`[${array}] TJ`); array = '' }
  positions.forEach((position, i) => {
    const { xOffset, yOffset } = position
    if (xOffset !== 0) { closeHex(); array += num(-xOffset) }
    if (yOffset !== 0) { closeArray(); operators.push(`${num((yOffset * sizePt) / 1000)} Ts`) }
    hex += glyphs[i]!
    if (yOffset !== 0) { closeArray(); operators.push('0 Ts') }
    const kern = position.xAdvance - position.advanceWidth - xOffset
    if (kern !== 0) { closeHex(); array += num(-kern) }
  })
  closeArray()
  return operators.join(' ')
}
