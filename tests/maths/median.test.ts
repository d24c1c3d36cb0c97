import { expect, test } from 'vitest'
import { median } from '../../src/maths/median.ts'

test.each([
  [[3, 1, 2], 2],
  [[4, 1, 3, 2], 2.5],
  [[5], 5],
  [[-1, -1, 9], -1],
])('median of %j', (values, expected) => {
  expect(median(values)).toBe(expected)
})
test('no values give nothing', () => expect(median([])).toBeUndefined())
