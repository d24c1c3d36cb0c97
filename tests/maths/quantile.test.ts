import { expect, test } from 'vitest'
import { quantile, quantileOfSorted, sorted } from '../../src/maths/quantile.ts'

// Definition 7 of Hyndman and Fan 1996: position (n - 1) p, worked by hand.
test.each([
  [[1, 2, 3, 4], 0.25, 1.75],
  [[1, 2, 3, 4], 0.5, 2.5],
  [[4, 1, 3, 2], 0.75, 3.25],
  [[7], 0.9, 7],
  [[1, 10], 0, 1],
  [[1, 10], 1, 10],
])('R-7 of %j at %d', (values, p, expected) => expect(quantile(values, p)).toBeCloseTo(expected, 12))

test('no values give nothing, a NaN or a wrong share is refused', () => {
  expect(quantile([], 0.5)).toBeUndefined()
  expect(() => quantile([1, NaN], 0.5)).toThrow(RangeError)
  expect(() => quantileOfSorted([1, 2], 1.1)).toThrow(RangeError)
})

test('the input is not changed', () => {
  const values = [3, 1, 2]
  sorted(values)
  expect(values).toEqual([3, 1, 2])
})
