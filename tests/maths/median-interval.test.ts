import { expect, test } from 'vitest'
import { medianInterval, medianIntervalRanks } from '../../src/maths/median-interval.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { referenceJson } from './reference-data.ts'

// Conover 1999, sec. 3.2 (sign-test interval); coverages computed with scipy.
test.each([
  [6, 1, 6, 0.96875],
  [10, 2, 9, 0.97852],
  [20, 6, 15, 0.95861],
  [50, 18, 33, 0.96716],
  [100, 40, 61, 0.9648],
])('ranks for n = %d', (n, low, high, coverage) => {
  const ranks = medianIntervalRanks(n)!
  expect(ranks).toMatchObject({ low, high })
  expect(ranks.coverage).toBeCloseTo(coverage, 5)
})
test('five values do not reach 95 %', () => expect(medianIntervalRanks(5)).toBeUndefined())

test('whole table', () => {
  const file = referenceJson<{
    rows: { n: number; r_low: number | null; r_high: number | null; coverage: number }[]
  }>('median-interval-ranks.json')
  for (const row of file.rows) {
    const ranks = medianIntervalRanks(row.n)
    expect(ranks?.low ?? null, `n ${row.n}`).toBe(row.r_low)
    expect(ranks?.high ?? null, `n ${row.n}`).toBe(row.r_high)
    if (ranks) expect(Math.abs(ranks.coverage - row.coverage)).toBeLessThan(1e-6)
  }
})

// The interpolated interval must hold the true median in 95 % of cases, near enough, for unlike shapes.
test.each([
  [6, 'normal'],
  [10, 'normal'],
  [11, 'normal'],
  [14, 'even'],
  [25, 'skewed'],
  [60, 'normal'],
] as const)('coverage of the interpolated interval: n = %d, %s', (n, shape) => {
  const random = makeRandom(n * 7 + shape.length)
  const draw = {
    normal: () => random.gaussian(),
    even: () => random.uniform() - 0.5,
    skewed: () => Math.log(2 * (1 - random.uniform())),
  }[shape]
  const runs = 4000
  let held = 0
  for (let run = 0; run < runs; run++) {
    const { low, high } = medianInterval(Float64Array.from({ length: n }, draw))!
    if (low <= 0 && high >= 0) held++
  }
  expect(held / runs).toBeGreaterThan(0.94)
  expect(held / runs).toBeLessThan(0.962)
})

test('the whole ranks bound the interpolated interval', () => {
  const values = [3, 1, 4, 1.5, 9, 2.6, 5, 3.5, 8, 9.7]
  const { low, high, value } = medianInterval(values)!
  const rising = values.toSorted((a, b) => a - b)
  expect(low).toBeGreaterThanOrEqual(rising[1]!)
  expect(low).toBeLessThan(rising[2]!)
  expect(high).toBeLessThanOrEqual(rising[8]!)
  expect(value).toBe(3.75)
  expect(medianInterval([1, 2, 3])).toBeUndefined()
})
