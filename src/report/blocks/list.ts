import type { StructElement } from 'pdfkit'
import { SIZES } from '../theme.ts'
import type { Style } from '../pdf/pen.ts'
import { linesOf, type Block } from './block.ts'

const GAP_PT = 5
const ITEM_GAPS_PT = { small: 3, fine: 1.5 } as const
/** Items that stay together at a page's foot or head. */
const FEWEST_ITEMS = 2
const INDENT_PT = 16
const STYLE: Style = { size: 'small', face: 'regular', color: 'ink' }

/** How a list looks: numbered, with labels of its own in a column of so many points, or behind dashes. */
export interface ListLook {
  numbered?: boolean
  labels?: readonly string[]
  indentPt?: number
  size?: Style['size']
}

/** Items below each other behind their labels. Cut between items. */
export function list(items: readonly string[], look: ListLook = {}): Block {
  const indentPt = look.indentPt ?? INDENT_PT
  const labelOf = (i: number): string => look.labels?.[i] ?? (look.numbered ? `${i + 1}.` : '\u2013')
  return {
    measure({ widthPt, type = 'small' }, typeface) {
      const style = { ...STYLE, size: look.size ?? type }
      const { leadPt } = SIZES[style.size]
      const laid = items.map((item) => linesOf(item, widthPt - indentPt, { style, typeface }))
      const heights = laid.map((lines) => lines.length * leadPt + ITEM_GAPS_PT[type])
      let element: StructElement | undefined
      return {
        shape: { pieces: heights, headPt: 0, gapPt: GAP_PT, keepWithNext: false, fewestPieces: FEWEST_ITEMS },
        draw(pen, part) {
          element ??= pen.element(part.parent, 'L')
          let { yPt } = part
          for (let i = part.from; i < part.to; i++) {
            const item = pen.element(element, 'LI')
            const label = pen.element(item, 'Lbl')
            pen.tagged(label, () =>
              pen.text(`${labelOf(i)} `, { xPt: part.xPt, yPt }, { ...style, color: 'quiet' }),
            )
            label.end()
            const body = pen.element(item, 'LBody')
            pen.words(body, laid[i]!, { xPt: part.xPt + indentPt, yPt }, style)
            body.end()
            item.end()
            yPt += heights[i]!
          }
          if (part.last) element.end()
        },
      }
    },
  }
}
