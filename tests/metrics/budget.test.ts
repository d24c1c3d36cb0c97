import { expect, test } from 'vitest'
import { joined, scaled, totalOf, withBudget } from '../../src/metrics/budget.ts'

// JCGM 100:2008, example H.1: 25, 9.7, 2.9, 16.6 nm combine to 31.67 nm.
test('root sum of squares', () => {
  const lines = [
    { source: 'scatter', u: 25 },
    { source: 'noise', u: 9.7 },
    { source: 'sampling', u: 2.9 },
    { source: 'instrument', u: 16.6 },
  ] as const
  expect(Math.abs(totalOf(lines) - 31.67)).toBeLessThan(0.01)
})
test('lines of a source are joined, empty ones left out', () => {
  expect(
    joined([
      { source: 'noise', u: 3 },
      { source: 'method', u: 0 },
      { source: 'noise', u: 4 },
    ]),
  ).toEqual([{ source: 'noise', u: 5 }])
})
test('u of a figure is the total of its budget', () => {
  expect(
    withBudget(1, 'kV', [
      { source: 'noise', u: 3 },
      { source: 'sampling', u: 4 },
    ]),
  ).toMatchObject({ ok: true, value: 1, u: 5, unit: 'kV' })
})
test('scaled by the size of the sensitivity', () =>
  expect(scaled([{ source: 'noise', u: 2 }], -3)).toEqual([{ source: 'noise', u: 6 }]))
