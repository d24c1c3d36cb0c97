import { expect, test } from 'vitest'
import { MAD_TO_SD, mad } from '../../src/maths/mad.ts'
import { makeRandom } from '../../src/maths/random.ts'

test('worked by hand: 1 1 2 2 4 6 9 has median 2, deviations 1 1 0 0 2 4 7, so 1', () => {
  expect(mad([1, 1, 2, 2, 4, 6, 9])).toBe(1)
})
test('no values give nothing; equal values give 0', () => {
  expect(mad([])).toBeUndefined()
  expect(mad([2, 2, 2])).toBe(0)
})
test('the factor brings it to the standard deviation of normal numbers', () => {
  const random = makeRandom(5)
  const values = Float64Array.from({ length: 40_000 }, () => 3 * random.gaussian())
  expect(mad(values)! * MAD_TO_SD).toBeCloseTo(3, 1)
})
