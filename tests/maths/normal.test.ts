import { expect, test } from 'vitest'
import { normalCdf, normalQuantile } from '../../src/maths/normal.ts'

// JCGM 106:2012, Table 1 (z for one-sided conformance probabilities), more digits computed.
test.each([
  [0.8, 0.84, 0.8416],
  [0.9, 1.28, 1.2816],
  [0.95, 1.64, 1.6449],
  [0.99, 2.33, 2.3263],
  [0.999, 3.09, 3.0902],
])('JCGM 106 Table 1: %d', (p, printed, more) => {
  expect(Math.abs(normalQuantile(p) - printed)).toBeLessThan(0.0051)
  expect(normalQuantile(p)).toBeCloseTo(more, 4)
})

// Computed with scipy.stats.norm.
test.each([
  [-1, 0.15865525393145707],
  [2.9999, 0.998649658717045],
  [3.0001, 0.9986505450867392],
  [-6, 9.865876450376946e-10],
  [-10, 7.61985302416047e-24],
])('area below %d', (z, area) => expect(Math.abs(normalCdf(z) / area - 1)).toBeLessThan(1e-9))

test('quantile undoes the area', () => {
  for (const p of [1e-12, 0.003, 0.2, 0.5, 0.9, 0.99999])
    expect(normalCdf(normalQuantile(p))).toBeCloseTo(p, 13)
  expect(() => normalQuantile(0)).toThrow(RangeError)
})
