import type { Block } from './block.ts'

/** Blocks below each other as one that is never cut: a heading with its list in a column, a photo with its caption. */
export function stack(blocks: readonly Block[]): Block {
  return {
    measure(room, typeface) {
      const laid = blocks.map((block) => block.measure(room, typeface))
      const gaps = laid.map(({ shape }, i) => (i === 0 ? 0 : shape.gapPt))
      const heights = laid.map(
        ({ shape }) => shape.headPt + shape.pieces.reduce((sum, piece) => sum + piece, 0),
      )
      const total = [...gaps, ...heights].reduce((sum, height) => sum + height, 0)
      return {
        shape: {
          pieces: [total],
          headPt: 0,
          gapPt: laid[0]?.shape.gapPt ?? 0,
          keepWithNext: false,
          fewestPieces: 1,
        },
        async draw(pen, part) {
          let { yPt } = part
          for (const [i, { shape, draw }] of laid.entries()) {
            yPt += gaps[i]!
            await draw(pen, {
              ...part,
              yPt,
              heightPt: heights[i]!,
              from: 0,
              to: shape.pieces.length,
              first: true,
              last: true,
            })
            yPt += heights[i]!
          }
        },
      }
    },
  }
}
