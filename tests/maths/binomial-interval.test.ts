import { expect, test } from 'vitest'
import { binomialInterval } from '../../src/maths/binomial-interval.ts'

// The ends are quantiles of beta distributions, computed with scipy.special.betaincinv.
test('3 of 10 and 0 of 20', () => {
  const three = binomialInterval({ hits: 3, total: 10 })
  expect(three.low).toBeCloseTo(0.06673951117773447, 10)
  expect(three.high).toBeCloseTo(0.6524528500599973, 10)
  const none = binomialInterval({ hits: 0, total: 20 })
  expect(none.low).toBe(0)
  expect(none.high).toBeCloseTo(0.1684334709830853, 10)
})
test('mirrored shares have mirrored intervals', () => {
  const few = binomialInterval({ hits: 2, total: 9 })
  const many = binomialInterval({ hits: 7, total: 9 })
  expect(many.high).toBeCloseTo(1 - few.low, 12)
  expect(many.low).toBeCloseTo(1 - few.high, 12)
})
test('refuses a share that is none', () =>
  expect(() => binomialInterval({ hits: 0, total: 0 })).toThrow(RangeError))
