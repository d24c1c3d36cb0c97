import { expect, test } from 'vitest'
import { coverageFactor, studentTCdf, studentTQuantile } from '../../src/maths/student-t.ts'
import { referenceText } from './reference-data.ts'

// NIST Technical Note 1297, Table B.1 (= JCGM 100:2008, Table G.2), printed to two decimals.
test.each([
  [1, 0.95, 12.71],
  [2, 0.95, 4.3],
  [4, 0.9, 2.13],
  [9, 0.95, 2.26],
  [16, 0.99, 2.92],
  [17, 0.9973002, 3.51],
])('NIST TN 1297 Table B.1: %d degrees of freedom, %d', (freedom, p, printed) => {
  expect(Math.abs(coverageFactor(p, freedom) - printed)).toBeLessThan(0.00501)
})

/** Shares of the table's columns; three are those within 1, 2 and 3 standard deviations of a normal distribution. */
const SHARES: Record<string, number> = {
  '68.27': 0.6826894921370859,
  '90': 0.9,
  '95': 0.95,
  '95.45': 0.9544997361036416,
  '99': 0.99,
  '99.73': 0.9973002039367398,
}

test('whole table: printed within half a digit, exact columns to 1e-6', () => {
  const text = referenceText('gum-t-table.csv')
  const [header, ...rows] = text
    .split(/\r?\n/)
    .filter((line) => line && !line.startsWith('#'))
    .map((line) => line.split(','))
  let checked = 0
  for (const row of rows) {
    // The table's last row is for infinite degrees of freedom.
    const freedom = /inf/i.test(row[0]!) ? 1e9 : Number(row[0])
    header!.forEach((name, column) => {
      const [kind, percent] = name.split('_p')
      if (percent === undefined) return
      const factor = coverageFactor(SHARES[percent]!, freedom)
      // Misprint in the published table: 35 degrees of freedom, 90 %, printed 1.70 for 1.68957.
      if (kind === 'printed' && freedom === 35 && percent === '90') return
      if (kind === 'exact')
        expect(Math.abs(factor / Number(row[column]) - 1), `${row[0]} ${name}`).toBeLessThan(1e-6)
      else expect(Math.abs(factor - Number(row[column])), `${row[0]} ${name}`).toBeLessThan(0.00501)
      checked++
    })
  }
  expect(checked).toBeGreaterThan(200)
})

// Closed form for one degree of freedom (Cauchy): 1/2 + atan(t)/pi.
test('one degree of freedom is the Cauchy distribution', () => {
  for (const t of [-20, -0.3, 0, 2, 100])
    expect(studentTCdf(t, 1)).toBeCloseTo(0.5 + Math.atan(t) / Math.PI, 12)
})

test('edge cases', () => {
  expect(studentTQuantile(0.5, 3)).toBe(0)
  expect(() => studentTQuantile(1, 3)).toThrow(RangeError)
  expect(() => studentTCdf(0, 0)).toThrow(RangeError)
})
