import { expect, test } from 'vitest'
import { makeRandom } from '../../src/maths/random.ts'
import { robustLine } from '../../src/maths/robust-line.ts'

// Worked example of Sen 1968: slope 4, intercept 4, 93 % limits 26/7 and 35/8.
test('Sen 1968', () => {
  const line = robustLine([1, 2, 3, 4, 10, 12, 18], [9, 15, 19, 20, 45, 55, 78], 0.93)!
  expect(line.slope).toBeCloseTo(4, 9)
  expect(line.intercept).toBeCloseTo(4, 9)
  expect(line.slopeLow).toBeCloseTo(26 / 7, 9)
  expect(line.slopeHigh).toBeCloseTo(35 / 8, 9)
})

// Data of the help page of the R package zyp; value recomputed. An even count of slopes.
test('even count of slopes', () => {
  expect(robustLine([0, 1, 2, 4, 5], [6, 4, 1, 8, 7])!.slope).toBeCloseTo(0.35, 9)
})

test('a quarter of wild points does not pull it away', () => {
  const x = Array.from({ length: 20 }, (_, i) => i)
  const y = x.map((v) => (v % 4 === 3 ? 1000 : 2 * v + 1))
  expect(robustLine(x, y)!.slope).toBeCloseTo(2, 9)
})

test('the 95 % interval holds the true slope in about 95 % of cases', () => {
  const random = makeRandom(11)
  const x = Array.from({ length: 25 }, (_, i) => i / 10)
  let held = 0
  const runs = 800
  for (let run = 0; run < runs; run++) {
    const line = robustLine(
      x,
      x.map((v) => 0.7 * v + random.gaussian()),
    )!
    if (line.slopeLow <= 0.7 && line.slopeHigh >= 0.7) held++
  }
  // Three standard errors of a share of 0.95 over the runs.
  expect(Math.abs(held / runs - 0.95)).toBeLessThan(3 * Math.sqrt((0.95 * 0.05) / runs))
})

test('edge cases', () => {
  expect(robustLine([1], [1])).toBeUndefined()
  expect(robustLine([2, 2], [1, 5])).toBeUndefined()
  expect(() => robustLine([1, 2], [1])).toThrow(RangeError)
})
