import { SIZES } from '../theme.ts'
import { linesOf, type Block } from './block.ts'

const PADS_PT = { small: 9, fine: 5 } as const
const BAR_PT = 3
const GAP_PT = 9

/** A caution: a title and its text on a tint, behind a bar. Kept whole. */
export function callout(title: string, text: string): Block {
  return {
    measure({ widthPt, type: size = 'small' }, typeface) {
      const TITLE = { size, face: 'semibold', color: 'ink' } as const
      const BODY = { size, face: 'regular', color: 'ink' } as const
      const { leadPt } = SIZES[size]
      const PAD_PT = PADS_PT[size]
      const inner = widthPt - 2 * PAD_PT - BAR_PT
      const titles = linesOf(title, inner, { style: TITLE, typeface })
      const lines = linesOf(text, inner, { style: BODY, typeface })
      const heightPt = (titles.length + lines.length) * leadPt + 2 * PAD_PT - 3
      return {
        shape: {
          pieces: [heightPt],
          headPt: 0,
          gapPt: size === 'fine' ? PAD_PT : GAP_PT,
          keepWithNext: false,
          fewestPieces: 1,
        },
        draw(pen, part) {
          pen.artifact(() => {
            pen.fill({ ...part, heightPt }, 'tint')
            pen.fill({ ...part, widthPt: BAR_PT, heightPt }, 'accent')
          })
          const at = { xPt: part.xPt + BAR_PT + PAD_PT, yPt: part.yPt + PAD_PT - 1.5 }
          const section = pen.element(part.parent, 'Div')
          const head = pen.element(section, 'P')
          pen.tagged(head, () => pen.lines(titles, at, TITLE))
          head.end()
          const body = pen.element(section, 'P')
          pen.tagged(body, () => pen.lines(lines, { ...at, yPt: at.yPt + titles.length * leadPt }, BODY))
          body.end()
          section.end()
        },
      }
    },
  }
}
