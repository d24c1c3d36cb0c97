import type { Font, Run } from 'fontkit'
import type { Kerning } from '../../texts/kerning.ts'
import type { FaceMeasures } from '../../texts/true-type.ts'

/** Shapes words of one face: glyphs with kerning, in font units. */
export type Shape = (text: string) => Run

/** Ligatures would come out of a search as one odd sign. */
const FEATURES = { liga: false }

/** Letters and signs that stand alone: no marks that combine, no script whose letters change shape. */
const PLAIN = /^[\u0020-\u02ff\u0370-\u0482\u048a-\u052f\u1e00-\u1fff\u2000-\u200a\u2010-\u2bff]*$/u

interface Glyph {
  id: number
  advanceWidth: number
  codePoints: number[]
}

/** Glyphs of a face by letter, ready to be drawn, kerning by pair, and words as set letter by letter. Pure memos of the font's own tables. */
export interface FaceTables {
  glyphOf(letter: string): Glyph
  kernOf: Kerning
  plainOf(word: string): Run
}

/** Words kept; reports of one shop share most of theirs. */
const MOST_WORDS = 5000

/** Tables of a face, filled as letters are first met; shaping a word by fontkit costs a hundred times as much. */
export function faceTables(measures: FaceMeasures): FaceTables {
  const glyphs = new Map<string, Glyph>()
  const plain = new Map(Array.from({ length: 0x7f - 0x20 }, (_, i) => [measures.glyphOf(0x20 + i), 0x20 + i]))
  const glyphOf = (letter: string): Glyph => {
    const known = glyphs.get(letter)
    if (known) return known
    const codePoint = letter.codePointAt(0)!
    const id = measures.glyphOf(codePoint)
    // A no-break space has the glyph of the space: searching and copying should find the common letter.
    const glyph = { id, advanceWidth: measures.advanceOf(id), codePoints: [plain.get(id) ?? codePoint] }
    glyphs.set(letter, glyph)
    return glyph
  }
  const kerns = new Map<number, number>()
  const kernOf = (left: number, right: number): number => {
    const pair = left * 0x10000 + right
    const known = kerns.get(pair)
    if (known !== undefined) return known
    const kern = measures.kernOf(left, right)
    kerns.set(pair, kern)
    return kern
  }
  const words = new Map<string, Run>()
  const plainOf = (word: string): Run => {
    const known = words.get(word)
    if (known) return known
    if (words.size >= MOST_WORDS) words.clear()
    const run = shapePlain(word, glyphOf, kernOf)
    words.set(word, run)
    return run
  }
  return { glyphOf, kernOf, plainOf }
}

/**
 * A shaper for one report. Text with combining marks or of other scripts goes through fontkit whole, on a view of the
 * font with a glyph store of its own: fontkit remembers with which letter a glyph was first asked for, and a shared
 * store would let an earlier report of the same process change the bytes of a later one. Where the font parts a letter
 * into glyphs that stand for no letter of their own, the text is set letter by letter: each glyph must tell its letter.
 */
export function shaper(base: Font, tables: FaceTables): Shape {
  const runs = new Map<string, Run>()
  const own = Object.create(base, { _glyphs: { value: {}, writable: true } }) as Font
  return (text) => {
    const known = runs.get(text)
    if (known) return known
    const whole = PLAIN.test(text) ? undefined : base.layout.call(own, text, FEATURES)
    const run = whole?.glyphs.every(({ codePoints }) => codePoints.length > 0) ? whole : tables.plainOf(text)
    runs.set(text, run)
    return run
  }
}

function shapePlain(text: string, glyphOf: FaceTables['glyphOf'], kernOf: Kerning): Run {
  const glyphs = Array.from(text, glyphOf)
  let total = 0
  const positions = glyphs.map(({ id, advanceWidth }, i) => {
    const next = glyphs[i + 1]
    const xAdvance = advanceWidth + (next === undefined ? 0 : kernOf(id, next.id))
    total += xAdvance
    return { xAdvance, yAdvance: 0, xOffset: 0, yOffset: 0, advanceWidth }
  })
  return { glyphs, positions, advanceWidth: total }
}
