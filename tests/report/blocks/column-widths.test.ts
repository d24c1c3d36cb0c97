import { describe, expect, test } from 'vitest'
import { columnWidths, type ColumnNeed } from '../../../src/report/blocks/column-widths.ts'

const need = (leastPt: number, idealPt: number, grow: number): ColumnNeed => ({ leastPt, idealPt, grow })
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0)

describe('column widths', () => {
  test.each<[string, ColumnNeed[], number[]]>([
    ['narrow columns get what they ask for, the growing one the rest', [need(10, 40, 0), need(20, 500, 1)], [40, 260]],
    ['growing columns share by weight', [need(20, 500, 1), need(20, 500, 3)], [20 + 65, 20 + 195]],
    ['a column that is full leaves its share to the others', [need(20, 30, 1), need(20, 500, 1)], [30, 270]],
    ['narrow columns give way down to their least', [need(100, 400, 0), need(100, 400, 1)], [200, 100]],
    ['what cannot fit is cut down alike', [need(300, 300, 0), need(600, 600, 1)], [100, 200]],
  ])('%s', (_, needs, expected) => {
    const widths = columnWidths(needs, 300)
    expect(sum(widths)).toBeCloseTo(300, 6)
    widths.forEach((width, i) => expect(width).toBeCloseTo(expected[i]!, 6))
  })
})
