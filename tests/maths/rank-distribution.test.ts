import { expect, test } from 'vitest'
import { lowerRank, rankCountChances, signedRankChances } from '../../src/maths/rank-distribution.ts'

const below = (chances: Float64Array, at: number) => chances.slice(0, at + 1).reduce((a, b) => a + b, 0)

// Counted by the plain recurrence f(n, m, u) = f(n-1, m, u-m) + f(n, m-1, u): a second implementation.
test('Mann-Whitney counts equal the plain recurrence', () => {
  const f = (n: number, m: number, u: number): number =>
    u < 0 ? 0 : n === 0 || m === 0 ? (u === 0 ? 1 : 0) : f(n - 1, m, u - m) + f(n, m - 1, u)
  const chances = rankCountChances(5, 4)
  for (let u = 0; u <= 20; u++) expect(chances[u]).toBeCloseTo(f(5, 4, u) / 126, 12)
  expect(below(rankCountChances(13, 6), 12)).toBeCloseTo(0.0083665, 6)
})

// Hollander and Wolfe 1999, pp. 51-55, Hamilton data: W 5 of n 9 has the two-sided p 0.0390625.
test('signed ranks', () => expect(2 * below(signedRankChances(9), 5)).toBeCloseTo(0.0390625, 12))

test('lower rank', () => {
  expect(lowerRank([0.01, 0.01, 0.1, 0.88], 0.025)).toBe(2)
  expect(lowerRank([0.1, 0.9], 0.025)).toBe(0)
})
