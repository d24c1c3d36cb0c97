import { ACCENT, BETWEEN_PT, FULL_WIDTH_PT, HAIR, INK, QUIET, WASH } from '../charts/theme.ts'

/** The look of the report: one type family, four sizes and a smaller one, one accent shared with the charts. All lengths in points. */

/** Type sizes and their line heights. */
export const SIZES = {
  /** The annex, tables, and the record where it would not fit on its page otherwise. */
  fine: { sizePt: 7.8, leadPt: 9.5 },
  small: { sizePt: 9, leadPt: 12 },
  /** Page one where the next larger would not leave it on one page. */
  plain: { sizePt: 10.2, leadPt: 14 },
  medium: { sizePt: 11.5, leadPt: 16.5 },
  large: { sizePt: 20, leadPt: 25 },
} as const
export type SizeName = keyof typeof SIZES

/** Ink and greys carry the text; the accent marks headings and rules, never a meaning. */
export const COLORS = { ink: INK, quiet: QUIET, rule: HAIR, tint: WASH, accent: ACCENT } as const
export type ColorName = keyof typeof COLORS

export const PAPER = {
  A4: { widthPt: 595.28, heightPt: 841.89 },
  LETTER: { widthPt: 612, heightPt: 792 },
} as const
export type Paper = keyof typeof PAPER

/** White above and below the text; header and footer stand in it at these distances from the paper's edge. */
export const MARGINS = { topPt: 60, bottomPt: 52, headerPt: 36, footerPt: 30 } as const

/** The frame the text stands in: as wide as a full chart on either paper, in the middle. */
export function frameOf(paper: Paper): { xPt: number; yPt: number; widthPt: number; heightPt: number } {
  const { widthPt, heightPt } = PAPER[paper]
  return {
    xPt: (widthPt - FULL_WIDTH_PT) / 2,
    yPt: MARGINS.topPt,
    widthPt: FULL_WIDTH_PT,
    heightPt: heightPt - MARGINS.topPt - MARGINS.bottomPt,
  }
}

/** White between columns that stand side by side. */
export const GUTTER_PT = BETWEEN_PT
