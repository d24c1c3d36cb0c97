import { faceMeasures } from '../texts/true-type.ts'
import { STRONG } from './theme.ts'

/** The two cuts that charts use. */
const FACES = { regular: 'regular', strong: 'semibold' } as const
export type Face = keyof typeof FACES

/** The face a font weight stands for. */
export const faceOf = (weight: string | number | undefined): Face =>
  weight === 'bold' || Number(weight ?? 400) >= STRONG ? 'strong' : 'regular'

/** Width of one line of text in pt: the sum of the font's own advances. Kerning is left out, so it errs to the wide side. */
export function widthOf(text: string, sizePt: number, face: Face = 'regular'): number {
  const { glyphOf, advanceOf, unitsPerEm } = faceMeasures(FACES[face])
  let units = 0
  for (const char of text) units += advanceOf(glyphOf(char.codePointAt(0)!))
  return (units / unitsPerEm) * sizePt
}
