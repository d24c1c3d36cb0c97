import { SIZES } from '../theme.ts'
import { linesOf, uncut, type Block } from './block.ts'

const GAP_PT = 6
const ROW_GAP_PT = 2.5
const DENSE_GAP_PT = 0.8
/** Share of the width for the names. */
const NAME_SHARE = 0.34

/** Names and their values below each other, as a table of two columns without rules. Kept whole. */
export function keyValues(
  entries: readonly { name: string; value: string }[],
  look: { nameShare?: number; keepWithNext?: boolean; size?: 'fine' | 'small'; dense?: boolean } = {},
): Block {
  const rowGapPt = look.dense ? DENSE_GAP_PT : ROW_GAP_PT
  return {
    measure({ widthPt, type = 'small' }, typeface) {
      const size = look.size ?? type
      const { leadPt } = SIZES[size]
      const NAME = { size, face: 'regular', color: 'quiet' } as const
      const VALUE = { size, face: 'regular', color: 'ink' } as const
      const nameWidth = widthPt * (look.nameShare ?? NAME_SHARE)
      const valueX = nameWidth + 8
      const rows = entries.map(({ name, value }) => ({
        name: linesOf(name, nameWidth, { style: NAME, typeface }),
        value: linesOf(value, widthPt - valueX, { style: VALUE, typeface }),
      }))
      const heights = rows.map(({ name, value }) => Math.max(name.length, value.length) * leadPt + rowGapPt)
      return {
        shape: {
          ...uncut(
            heights.reduce((sum, height) => sum + height, 0),
            GAP_PT,
          ),
          keepWithNext: look.keepWithNext ?? false,
        },
        draw(pen, part) {
          const table = pen.element(part.parent, 'Table')
          const body = pen.element(table, 'TBody')
          let { yPt } = part
          rows.forEach((row, i) => {
            const tr = pen.element(body, 'TR')
            const name = pen.element(tr, 'TH', { scope: 'Row' })
            pen.tagged(name, () => pen.lines(row.name, { xPt: part.xPt, yPt }, NAME))
            name.end()
            const value = pen.element(tr, 'TD')
            pen.words(value, row.value, { xPt: part.xPt + valueX, yPt }, VALUE)
            value.end()
            tr.end()
            yPt += heights[i]!
          })
          body.end()
          table.end()
        },
      }
    },
  }
}
