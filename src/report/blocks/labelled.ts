import { SIZES } from '../theme.ts'
import { linesOf, uncut, type Block } from './block.ts'

const GAP_PT = 13
/** Share of the width for the label: a quarter of the grid. */
const LABEL_SHARE = 0.25

/** A label (a heading of level 2) in the left quarter with its sentences beside it. Kept whole. */
export function labelled(
  label: string,
  sentences: readonly string[],
  look: { size: 'small' | 'plain' | 'medium' },
): Block {
  const labelStyle = { size: look.size, face: 'semibold', color: 'accent' } as const
  const textStyle = { size: look.size, face: 'regular', color: 'ink' } as const
  const { leadPt } = SIZES[look.size]
  return {
    measure({ widthPt }, typeface) {
      const indentPt = widthPt * LABEL_SHARE
      const head = linesOf(label, indentPt - 12, { style: labelStyle, typeface })
      const lines = linesOf(sentences.join(' '), widthPt - indentPt, { style: textStyle, typeface })
      return {
        shape: uncut(Math.max(head.length, lines.length) * leadPt, GAP_PT),
        draw(pen, part) {
          const title = pen.element(part.parent, 'H2', { title: label })
          pen.tagged(title, () => pen.lines(head, part, labelStyle))
          title.end()
          const text = pen.element(part.parent, 'P')
          pen.tagged(text, () => pen.lines(lines, { ...part, xPt: part.xPt + indentPt }, textStyle))
          text.end()
        },
      }
    },
  }
}
