import type { Shape } from '../layout/break-pages.ts'
import { GUTTER_PT } from '../theme.ts'
import type { Block } from './block.ts'

/**
 * Blocks in columns beside each other, read from left to right; of equal width, or of the shares given. Kept whole, so
 * each must be short.
 */
export function beside(
  blocks: readonly Block[],
  look: { columns?: number; shares?: readonly number[]; keepWithNext?: boolean } = {},
): Block {
  const columns = look.columns ?? blocks.length
  const shares = look.shares ?? Array.from({ length: columns }, () => 1 / columns)
  return {
    measure({ widthPt, ...room }, typeface) {
      const widths = shares.map((share) => share * (widthPt - (columns - 1) * GUTTER_PT))
      const laid = blocks.map((block, i) => block.measure({ ...room, widthPt: widths[i]! }, typeface))
      const heightOf = (shape: Shape) => shape.headPt + shape.pieces.reduce((sum, piece) => sum + piece, 0)
      return {
        shape: {
          pieces: [Math.max(...laid.map(({ shape }) => heightOf(shape)))],
          headPt: 0,
          gapPt: Math.max(...laid.map(({ shape }) => shape.gapPt)),
          keepWithNext: look.keepWithNext ?? false,
          fewestPieces: 1,
        },
        async draw(pen, part) {
          let { xPt } = part
          for (const [i, { shape, draw }] of laid.entries()) {
            await draw(pen, {
              ...part,
              xPt,
              widthPt: widths[i]!,
              heightPt: heightOf(shape),
              from: 0,
              to: shape.pieces.length,
              first: true,
              last: true,
            })
            xPt += widths[i]! + GUTTER_PT
          }
        },
      }
    },
  }
}
