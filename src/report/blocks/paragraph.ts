import type { StructElement } from 'pdfkit'
import { SIZES } from '../theme.ts'
import type { Style } from '../pdf/pen.ts'
import { linesOf, type Block } from './block.ts'

/** White above a paragraph. */
const GAPS_PT = { small: 6, fine: 4 } as const
/** Lines that stay together at a page's foot or head. */
const FEWEST_LINES = 2

const BODY: Style = { size: 'small', face: 'regular', color: 'ink' }

/** Running text; cut between lines, never leaving one alone. */
export function paragraph(
  text: string,
  look: Partial<Style> & { gapPt?: number; keepWithNext?: boolean; tag?: string } = {},
): Block {
  return {
    measure({ widthPt, type = 'small' }, typeface) {
      const style = { ...BODY, size: type, ...look }
      const lines = linesOf(text, widthPt, { style, typeface })
      const { leadPt } = SIZES[style.size]
      let element: StructElement | undefined
      return {
        shape: {
          pieces: lines.map(() => leadPt),
          headPt: 0,
          gapPt: look.gapPt ?? GAPS_PT[type],
          keepWithNext: look.keepWithNext ?? false,
          fewestPieces: FEWEST_LINES,
        },
        draw(pen, part) {
          element ??= pen.element(part.parent, look.tag ?? 'P')
          const shown = lines.slice(part.from, part.to)
          pen.words(element, part.last ? shown : [...shown.slice(0, -1), `${shown.at(-1)} `], part, style)
          if (part.last) element.end()
        },
      }
    },
  }
}
