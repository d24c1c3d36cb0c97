import type { Shape } from '../layout/break-pages.ts'
import { GUTTER_PT } from '../theme.ts'
import type { Block } from './block.ts'

/** Blocks in columns of equal width beside each other, read from left to right. Kept whole, so each must be short. */
export function beside(blocks: readonly Block[], look: { columns?: number } = {}): Block {
  const columns = look.columns ?? blocks.length
  return {
    measure({ widthPt, heightPt }, typeface) {
      const columnPt = (widthPt - (columns - 1) * GUTTER_PT) / columns
      const laid = blocks.map((block) => block.measure({ widthPt: columnPt, heightPt }, typeface))
      const heightOf = (shape: Shape) => shape.headPt + shape.pieces.reduce((sum, piece) => sum + piece, 0)
      return {
        shape: {
          pieces: [Math.max(...laid.map(({ shape }) => heightOf(shape)))], headPt: 0, gapPt: Math.max(...laid.map(({ shape }) => shape.gapPt)),
          keepWithNext: false, fewestPieces: 1,
        },
        async draw(pen, part) {
          for (const [i, { shape, draw }] of laid.entries()) {
            await draw(pen, {
              ...part, xPt: part.xPt + i * (columnPt + GUTTER_PT), widthPt: columnPt, heightPt: heightOf(shape),
              from: 0, to: shape.pieces.length, first: true, last: true,
            })
          }
        },
      }
    },
  }
}
