import { describe, expect, test } from 'vitest'
import { columnWidths, type ColumnNeed } from '../../../src/report/blocks/column-widths.ts'

/** A column whose cells hold one text each, of these widths in one line; no word of them is wider than `leastPt`. */
const need = (leastPt: number, widths: number[], grow: number): ColumnNeed => ({
  leastPt,
  idealPt: Math.max(leastPt, ...widths),
  grow,
  rows: widths.map((width) => [width]),
})
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0)
/** Lines of the rows at these widths, counted as text wraps, each line as full as can be. */
const linesAt = (needs: readonly ColumnNeed[], widths: readonly number[]) =>
  sum(
    needs[0]!.rows.map((_, row) =>
      Math.max(...needs.map((column, i) => Math.max(1, Math.ceil(column.rows[row]![0]! / widths[i]!)))),
    ),
  )

describe('column widths', () => {
  test.each<[string, ColumnNeed[], number[]]>([
    [
      'narrow columns get what they ask for, the growing one the rest',
      [need(10, [40], 0), need(20, [500], 1)],
      [40, 260],
    ],
    ['what nobody needs is shared by weight', [need(20, [20], 1), need(20, [20], 3)], [20 + 65, 20 + 195]],
    ['narrow columns give way down to their least', [need(100, [400], 0), need(100, [400], 1)], [200, 100]],
    ['what cannot fit is cut down alike', [need(300, [300], 0), need(600, [600], 1)], [100, 200]],
  ])('%s', (_, needs, expected) => {
    const widths = columnWidths(needs, 300)
    expect(sum(widths)).toBeCloseTo(300, 6)
    widths.forEach((width, i) => expect(width).toBeCloseTo(expected[i]!, 6))
  })

  test('a table too narrow for whole intervals parts them before it cuts anything', () => {
    const interval = (): ColumnNeed => ({ ...need(60, [60], 1), tightPt: 32 })
    const widths = columnWidths(Array.from({ length: 6 }, interval), 300)
    expect(sum(widths)).toBeCloseTo(300, 6)
    for (const width of widths) expect(width).toBeGreaterThanOrEqual(32)
  })

  test('room goes where it shortens the table: two columns of like text share it, one of short words keeps its least', () => {
    const [a, b, c] = columnWidths(
      [need(20, [600, 700], 1), need(20, [600, 700], 1), need(20, [24, 24], 1)],
      300,
    )
    expect(Math.abs(a! - b!)).toBeLessThanOrEqual(6)
    expect(c).toBeLessThanOrEqual(30)
  })

  test('no other split of the room makes a table of two columns more than a tenth shorter', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const width = (i: number) => 30 + ((seed * 7919 + i * 104729) % 900)
      const needs = [0, 1].map((column) =>
        need(
          30,
          Array.from({ length: 12 }, (_, row) => width(row * 2 + column)),
          1,
        ),
      )
      const best = Math.min(...Array.from({ length: 241 }, (_, i) => linesAt(needs, [30 + i, 270 - i])))
      expect(linesAt(needs, columnWidths(needs, 300))).toBeLessThanOrEqual(Math.ceil(1.1 * best))
    }
  })
})
