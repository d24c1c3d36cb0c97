import type { Face } from '../text/typeface.ts'

/** From this weight on a text is drawn in the semibold cut. */
const SEMIBOLD_WEIGHT = 600

/**
 * Face and size of a canvas font such as "italic 600 11px Source Sans 3". The family is always the report's own.
 * @throws Error where no size in px is given
 */
export function parseCanvasFont(font: string): { face: Face; sizePt: number } {
  const size = font.match(/(?:^|\s)(\d+(?:\.\d+)?)px/)
  if (!size) throw new Error(`font '${font}' has no size in px`)
  const words = font.slice(0, size.index).split(/\s+/)
  const weight = words.includes('bold') ? 700 : Number(words.find((word) => /^\d+$/.test(word)) ?? 400)
  const face = weight >= SEMIBOLD_WEIGHT ? 'semibold' : words.includes('italic') ? 'italic' : 'regular'
  return { face, sizePt: Number(size[1]) }
}
