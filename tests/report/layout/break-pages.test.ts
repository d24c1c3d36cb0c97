import { describe, expect, test } from 'vitest'
import { breakPages, type Placement, type Shape } from '../../../src/report/layout/break-pages.ts'

const block = (pieces: number[], more: Partial<Shape> = {}): Shape => ({
  pieces,
  headPt: 0,
  gapPt: 0,
  keepWithNext: false,
  fewestPieces: 1,
  ...more,
})
const heading = (heightPt = 20): Shape => block([heightPt], { keepWithNext: true, holdsFloats: true })
const chart = (heightPt: number, leastPt = heightPt): Shape => block([heightPt], { floats: true, leastPt })

/** item:from-to@page/y of each placement. */
const told = (placements: readonly Placement[]) =>
  placements.map((p) => `${p.item}:${p.from}-${p.to}@${p.page}/${p.yPt}`)

describe('page breaker', () => {
  test('puts blocks below each other with their gaps, none at the top of a page', () => {
    expect(
      told(
        breakPages([block([30], { gapPt: 8 }), block([30], { gapPt: 8 }), block([60], { gapPt: 8 })], 100),
      ),
    ).toEqual(['0:0-1@0/0', '1:0-1@0/38', '2:0-1@1/0'])
  })

  test('moves a heading with what follows it', () => {
    expect(told(breakPages([block([70]), heading(), block([20])], 100))).toEqual([
      '0:0-1@0/0',
      '1:0-1@1/0',
      '2:0-1@1/20',
    ])
  })

  test('moves a chain of headings together', () => {
    expect(told(breakPages([block([50]), heading(), heading(), block([20])], 100)).slice(1)).toEqual([
      '1:0-1@1/0',
      '2:0-1@1/20',
      '3:0-1@1/40',
    ])
  })

  test('cuts a table between rows and counts the repeated head', () => {
    expect(told(breakPages([block([30, 30, 30, 30, 30], { headPt: 10 })], 100))).toEqual([
      '0:0-3@0/0',
      '0:3-5@1/0',
    ])
  })

  test('leaves no single line at the foot of a page', () => {
    expect(told(breakPages([block([85]), block([10, 10, 10, 10], { fewestPieces: 2 })], 100))).toEqual([
      '0:0-1@0/0',
      '1:0-4@1/0',
    ])
  })

  test('leaves no single line at the head of a page', () => {
    expect(told(breakPages([block([60]), block([10, 10, 10, 10, 10], { fewestPieces: 2 })], 100))).toEqual([
      '0:0-1@0/0',
      '1:0-3@0/60',
      '1:3-5@1/0',
    ])
  })

  test('draws a chart smaller where that lets the one after it stand on the page, and only then', () => {
    const heights = (shapes: Shape[]) => breakPages(shapes, 100).map((p) => [p.page, p.heightPt])
    expect(heights([chart(60, 48), chart(60, 48)])).toEqual([
      [0, 52],
      [0, 48],
    ])
    expect(heights([chart(60, 55), chart(60, 55)])).toEqual([
      [0, 60],
      [1, 60],
    ])
    expect(heights([chart(40, 30), chart(60, 48)])).toEqual([
      [0, 40],
      [0, 60],
    ])
  })

  test('moves a block that is never cut as a whole', () => {
    expect(told(breakPages([block([60]), block([50])], 100))).toEqual(['0:0-1@0/0', '1:0-1@1/0'])
  })

  test('places a piece taller than the page alone rather than for ever', () => {
    expect(told(breakPages([block([10]), block([150]), block([10])], 100))).toEqual([
      '0:0-1@0/0',
      '1:0-1@1/0',
      '2:0-1@2/0',
    ])
  })

  test('starts a new page when told to, but leaves no empty one', () => {
    expect(told(breakPages([block([10], { newPage: true }), block([10], { newPage: true })], 100))).toEqual([
      '0:0-1@0/0',
      '1:0-1@1/0',
    ])
  })

  test('lets text and smaller charts go before a chart that does not fit', () => {
    expect(told(breakPages([block([50]), chart(60), chart(30), block([20])], 100))).toEqual([
      '0:0-1@0/0',
      '2:0-1@0/50',
      '3:0-1@0/80',
      '1:0-1@1/0',
    ])
  })

  test('never lets a chart move past the next heading', () => {
    expect(told(breakPages([block([50]), chart(60), heading(), block([20])], 100))).toEqual([
      '0:0-1@0/0',
      '1:0-1@1/0',
      '2:0-1@1/60',
      '3:0-1@1/80',
    ])
  })

  test('draws a chart smaller to fill a foot, down to its least height', () => {
    expect(breakPages([block([50]), chart(60, 45)], 100)[1]).toMatchObject({ page: 0, yPt: 50, heightPt: 50 })
    expect(breakPages([block([50]), chart(60, 55)], 100)[1]).toMatchObject({ page: 1, yPt: 0, heightPt: 60 })
  })

  test('places every piece once, in order, inside the page, whatever comes', () => {
    const shapes = Array.from({ length: 60 }, (_, i): Shape => {
      const count = 1 + ((i * 7) % 9)
      return i % 11 === 0
        ? heading()
        : i % 6 === 5
          ? chart(90 + (i % 5) * 20)
          : block(
              Array.from({ length: count }, (_, j) => 12 + ((i + j) % 4) * 9),
              { headPt: i % 3 === 0 ? 15 : 0, gapPt: 6, fewestPieces: 1 + (i % 2) },
            )
    })
    const placements = breakPages(shapes, 300)
    for (const [item, shape] of shapes.entries()) {
      const parts = placements.filter((p) => p.item === item)
      expect(parts.map((p) => p.from)).toEqual([0, ...parts.slice(0, -1).map((p) => p.to)])
      expect(parts.at(-1)!.to).toBe(shape.pieces.length)
    }
    for (const [i, p] of placements.entries()) {
      expect(p.yPt + p.heightPt).toBeLessThanOrEqual(300.01)
      const before = placements[i - 1]
      if (before?.page === p.page) expect(p.yPt).toBeGreaterThanOrEqual(before.yPt + before.heightPt - 0.01)
      else expect(p.page).toBe((before?.page ?? -1) + 1)
    }
  })
})
