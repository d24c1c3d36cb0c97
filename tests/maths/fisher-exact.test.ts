import { expect, test } from 'vitest'
import { fisherExact } from '../../src/maths/fisher-exact.ts'

// The lady tasting tea (Fisher 1935, ch. 2): 3 of 4 and 1 of 4; of 70 arrangements 1 + 16 + 16 + 1 are no likelier.
test('lady tasting tea: 34 of 70', () => {
  expect(fisherExact({ hits: 3, total: 4 }, { hits: 1, total: 4 })).toBeCloseTo(34 / 70, 12)
  expect(fisherExact({ hits: 4, total: 4 }, { hits: 0, total: 4 })).toBeCloseTo(2 / 70, 12)
})
// By hand: 13 of 13 against none of 13, one arrangement of 26 over 13 at either end.
test('all against none', () =>
  expect(fisherExact({ hits: 13, total: 13 }, { hits: 0, total: 13 }) * 10_400_600).toBeCloseTo(2, 6))
test('the same share is no difference; no group has more hits than it counts', () => {
  expect(fisherExact({ hits: 5, total: 20 }, { hits: 5, total: 20 })).toBeCloseTo(1, 12)
  expect(fisherExact({ hits: 0, total: 0 }, { hits: 5, total: 20 })).toBeCloseTo(1, 12)
  expect(() => fisherExact({ hits: 5, total: 4 }, { hits: 0, total: 1 })).toThrow(RangeError)
})
