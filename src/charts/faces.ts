import { create, type Font } from 'fontkit'
import { readFaceFile } from '../texts/font-files.ts'
import { STRONG } from './theme.ts'

/** The two cuts that charts use. */
const FACES = { regular: 'regular', strong: 'semibold' } as const
export type Face = keyof typeof FACES

// Memos of pure functions: the fonts as opened, and each character's advance in em.
const opened = new Map<Face, Font>()
const advances: Readonly<Record<Face, Map<string, number>>> = { regular: new Map(), strong: new Map() }

function advanceEm(char: string, face: Face): number {
  const known = advances[face].get(char)
  if (known !== undefined) return known
  const font = opened.get(face) ?? create(readFaceFile(FACES[face]))
  opened.set(face, font)
  const em = font.glyphForCodePoint(char.codePointAt(0)!).advanceWidth / font.unitsPerEm
  advances[face].set(char, em)
  return em
}

/** The face a font weight stands for. */
export const faceOf = (weight: string | number | undefined): Face =>
  weight === 'bold' || Number(weight ?? 400) >= STRONG ? 'strong' : 'regular'

/** Width of one line of text in pt: the sum of the font's own advances. Kerning is left out, so it errs to the wide side. */
export function widthOf(text: string, sizePt: number, face: Face = 'regular'): number {
  let em = 0
  for (const char of text) em += advanceEm(char, face)
  return em * sizePt
}
