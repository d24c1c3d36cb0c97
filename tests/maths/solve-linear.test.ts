import { expect, test } from 'vitest'
import { solveLinear } from '../../src/maths/solve-linear.ts'

test('a system with a known answer, rows in an order that needs a swap', () => {
  // x = 1, -2, 3 put into three equations by hand; the first pivot is 0
  const a = Float64Array.of(0, 2, 1, 1, 1, 1, 2, 0, -1)
  expect([...solveLinear(a, Float64Array.of(-1, 2, -1))!].map((v) => Number(v.toFixed(12)))).toEqual([
    1, -2, 3,
  ])
})

test('inputs are not changed', () => {
  const a = Float64Array.of(2, 1, 1, 3)
  const b = Float64Array.of(3, 5)
  solveLinear(a, b)
  expect([...a, ...b]).toEqual([2, 1, 1, 3, 3, 5])
})

test('the Hilbert matrix of order 5 (closed form: sums of rows give ones)', () => {
  const a = Float64Array.from({ length: 25 }, (_, k) => 1 / (Math.floor(k / 5) + (k % 5) + 1))
  const b = Float64Array.from({ length: 5 }, (_, i) =>
    [0, 1, 2, 3, 4].reduce((s, j) => s + 1 / (i + j + 1), 0),
  )
  for (const v of solveLinear(a, b)!) expect(v).toBeCloseTo(1, 9)
})

test('no single answer, wrong shapes', () => {
  expect(solveLinear(Float64Array.of(1, 1, 1, 1), Float64Array.of(1, 2))).toBeUndefined()
  expect(() => solveLinear(Float64Array.of(1), Float64Array.of(1, 2))).toThrow(RangeError)
})
