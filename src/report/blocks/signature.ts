import { SIZES } from '../theme.ts'
import { linesOf, uncut, type Block } from './block.ts'

const GAP_PT = 10
/** Room to sign in. */
const SPACE_PT = 34
const ROLE = { size: 'small', face: 'semibold', color: 'ink' } as const
const NOTE = { size: 'small', face: 'regular', color: 'quiet' } as const
const { leadPt } = SIZES.small

/** Who signs, a line to sign on, and what stands under it. Never cut. */
export function signature(content: { role: string; name: string; under: string }): Block {
  return {
    measure({ widthPt }, typeface) {
      const role = linesOf(content.role, widthPt, { style: ROLE, typeface })
      const name = linesOf(content.name, widthPt, { style: NOTE, typeface })
      const under = linesOf(content.under, widthPt, { style: NOTE, typeface })
      const linePt = (role.length + name.length) * leadPt + SPACE_PT
      return {
        shape: uncut(linePt + 3 + under.length * leadPt, GAP_PT),
        draw(pen, part) {
          const element = pen.element(part.parent, 'P')
          pen.tagged(element, () => {
            pen.lines([...role, ''], part, ROLE)
            pen.lines([...name, ''], { xPt: part.xPt, yPt: part.yPt + role.length * leadPt }, NOTE)
          })
          pen.artifact(() => pen.rule({ ...part, yPt: part.yPt + linePt }, { color: 'ink', thickPt: 0.7 }))
          pen.tagged(element, () => pen.lines(under, { xPt: part.xPt, yPt: part.yPt + linePt + 3 }, NOTE))
          element.end()
        },
      }
    },
  }
}
