import { describe, expect, test } from 'vitest'
import { breakPages, type Shape } from '../../../src/report/layout/break-pages.ts'
import { fillPages } from '../../../src/report/layout/fill-pages.ts'

const block = (heightPt: number, more: Partial<Shape> = {}): Shape => ({
  pieces: [heightPt],
  headPt: 0,
  gapPt: 4,
  keepWithNext: false,
  fewestPieces: 1,
  ...more,
})
const tops = (shapes: readonly Shape[]) =>
  fillPages(breakPages(shapes, 200), shapes, 200).map(({ page, yPt }) => [page, yPt])

describe('white left at the foot of a page', () => {
  test('is spread evenly over the gaps, so that the page ends at its foot', () =>
    expect(tops([block(60), block(60), block(60), block(60)])).toEqual([
      [0, 0],
      [0, 70],
      [0, 140],
      [1, 0],
    ]))

  test('never parts a heading from what follows it', () =>
    expect(tops([block(60), block(20, { keepWithNext: true }), block(102), block(60)])).toEqual([
      [0, 0],
      [0, 74],
      [0, 98],
      [1, 0],
    ]))

  test('is left where it is when the page is far from full, and on the last page', () => {
    expect(tops([block(50), block(50), block(190), block(10)])).toEqual([
      [0, 0],
      [0, 54],
      [1, 0],
      [2, 0],
    ])
    expect(tops([block(90), block(90)])).toEqual([
      [0, 0],
      [0, 94],
    ])
  })
})
