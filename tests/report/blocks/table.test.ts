import { describe, expect, test } from 'vitest'
import { table } from '../../../src/report/blocks/table.ts'
import type { Typeface } from '../../../src/report/text/typeface.ts'
import { SIZES } from '../../../src/report/theme.ts'

/** Every letter half an em wide: heights can be worked out by hand. */
const typeface = {
  width: (text: string, { sizePt }: { sizePt: number }) => (text.length * sizePt) / 2,
  has: () => true,
} as unknown as Typeface
const ROOM = { widthPt: 400, heightPt: 600 }
const LINE = SIZES.small.leadPt
const PAD = 5
const columns = [
  { title: 'No.', grow: 0 },
  { title: 'Words', grow: 1 },
]

describe('table', () => {
  test('has a head to repeat and a piece a row, as tall as its tallest cell', () => {
    const { shape } = table({
      columns,
      rows: [
        ['1', 'short'],
        ['2', { text: 'value', note: '1 \u2026 2' }],
        ['3', { lead: 'lead', text: 'value', note: 'note' }],
      ],
    }).measure(ROOM, typeface)
    expect(shape.headPt).toBe(LINE + PAD)
    expect(shape.pieces).toEqual([LINE + PAD, 2 * LINE + PAD, 3 * LINE + PAD])
  })

  test('parts a row taller than half a page between its lines and keeps every line', () => {
    const words = Array.from({ length: 1000 }, () => 'word').join(' ')
    const lines = Math.ceil(1000 / 16)
    const { shape } = table({ columns, rows: [['1', words]] }).measure(ROOM, typeface)
    expect(shape.pieces.length).toBeGreaterThan(1)
    for (const piece of shape.pieces) expect(piece).toBeLessThanOrEqual(ROOM.heightPt / 2)
    const drawn = shape.pieces.reduce((sum, piece) => sum + (piece - PAD) / LINE, 0)
    expect(Math.abs(drawn - lines)).toBeLessThanOrEqual(6)
  })

  test('an empty cell still takes a line', () => {
    expect(table({ columns, rows: [['', '']] }).measure(ROOM, typeface).shape.pieces).toEqual([LINE + PAD])
  })
})
