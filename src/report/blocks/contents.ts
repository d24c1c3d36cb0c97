import { GUTTER_PT, SIZES } from '../theme.ts'
import { linesOf, uncut, type Block } from './block.ts'

const GAP_PT = 6
/** Room for the page's number. */
const NUMBER_PT = 16

/** Where everything stands: titles with the pages they begin on, each a link, in columns read downwards. Kept whole. */
export function contents(
  entries: readonly { title: string; anchor: string }[],
  look: { columns: number; size: 'fine' | 'small'; pageWords: (page: number) => string },
): Block {
  const style = { size: look.size, face: 'regular', color: 'ink' } as const
  const { leadPt } = SIZES[look.size]
  const rows = Math.ceil(entries.length / look.columns)
  return {
    measure({ widthPt }, typeface) {
      const columnPt = (widthPt - (look.columns - 1) * GUTTER_PT) / look.columns
      const titles = entries.map(({ title }) => linesOf(title, columnPt - NUMBER_PT - 4, { style, typeface }))
      const columns = Array.from({ length: look.columns }, (_, c) => titles.slice(c * rows, (c + 1) * rows))
      const heightOf = (of: readonly (readonly string[])[]) =>
        of.reduce((sum, lines) => sum + lines.length * leadPt + 1, 0)
      return {
        shape: uncut(Math.max(...columns.map(heightOf)), GAP_PT),
        draw(pen, part) {
          const list = pen.element(part.parent, 'TOC')
          columns.forEach((column, c) => {
            const xPt = part.xPt + c * (columnPt + GUTTER_PT)
            let { yPt } = part
            column.forEach((lines, r) => {
              const { title, anchor } = entries[c * rows + r]!
              const page = part.pageOf(anchor)
              const number = page === undefined ? '' : String(page)
              const item = pen.element(list, 'TOCI')
              const reference = pen.element(item, 'Reference')
              const heightPt = lines.length * leadPt
              pen.link(
                reference,
                {
                  anchor,
                  words: page === undefined ? title : `${title}, ${look.pageWords(page)}`,
                  box: { xPt, yPt, widthPt: columnPt, heightPt },
                },
                () => {
                  pen.lines([...lines, ''], { xPt, yPt }, style)
                  const right = xPt + columnPt - pen.widthOf(number, style)
                  pen.text(number || ' ', { xPt: right, yPt: yPt + heightPt - leadPt }, style)
                },
              )
              reference.end()
              item.end()
              yPt += heightPt + 1
            })
          })
          list.end()
        },
      }
    },
  }
}
