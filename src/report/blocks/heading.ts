import { SIZES, type SizeName } from '../theme.ts'
import type { Style } from '../pdf/pen.ts'
import { linesOf, type Block } from './block.ts'

interface Look {
  tag: 'H1' | 'H2' | 'H3'
  style: Style
  gapPt: number
  rulePt: number
}

const LOOKS: Readonly<Record<1 | 2 | 3, Look>> = {
  1: { tag: 'H1', style: { size: 'large', face: 'semibold', color: 'ink' }, gapPt: 26, rulePt: 0 },
  2: { tag: 'H2', style: { size: 'medium', face: 'semibold', color: 'accent' }, gapPt: 20, rulePt: 1 },
  3: { tag: 'H3', style: { size: 'small', face: 'semibold', color: 'ink' }, gapPt: 12, rulePt: 0 },
}
/** In the annex, which is looked things up in: nearer to what stands around them. */
const FINE_LOOKS: Readonly<Record<1 | 2 | 3, Look>> = {
  1: LOOKS[1],
  2: { tag: 'H2', style: { size: 'small', face: 'semibold', color: 'accent' }, gapPt: 13, rulePt: 0.6 },
  3: { tag: 'H3', style: { size: 'fine', face: 'semibold', color: 'ink' }, gapPt: 8, rulePt: 0 },
}
/** White between a section's rule and its heading, in thicknesses of the rule. */
const RULE_GAPS = 5

/** A heading of level 1 (the title), 2 (a section, under a rule) or 3. Stays with what follows; bookmarked, and what links to `anchor` leads here. */
export function heading(level: 1 | 2 | 3, text: string, anchor?: string): Block {
  return {
    measure({ widthPt, type }, typeface) {
      const { tag, style, gapPt, rulePt } = (type === 'fine' ? FINE_LOOKS : LOOKS)[level]
      const lines = linesOf(text, widthPt, { style, typeface })
      const top = rulePt > 0 ? rulePt * (1 + RULE_GAPS) : 0
      return {
        shape: {
          pieces: [top + lines.length * leadOf(style.size)],
          headPt: 0,
          gapPt,
          keepWithNext: true,
          fewestPieces: 1,
          holdsFloats: true,
        },
        draw(pen, part) {
          if (rulePt > 0)
            pen.artifact(() =>
              pen.rule({ ...part, yPt: part.yPt + rulePt / 2 }, { color: 'accent', thickPt: rulePt }),
            )
          const element = pen.element(part.parent, tag, { title: text })
          pen.tagged(element, () => pen.lines(lines, { xPt: part.xPt, yPt: part.yPt + top }, style))
          element.end()
          pen.bookmark(text, part.yPt, level)
          if (anchor !== undefined) pen.anchor(anchor, part.yPt)
        },
      }
    },
  }
}

const leadOf = (size: SizeName) => SIZES[size].leadPt
