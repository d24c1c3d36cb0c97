import { expect, test } from 'vitest'
import { incompleteBeta } from '../../src/maths/incomplete-beta.ts'

// Closed forms: I_x(1, b) = 1 - (1 - x)^b; I_x(a, 1) = x^a; I_1/2(a, a) = 1/2; I_x(a, b) = 1 - I_(1-x)(b, a).
test('closed forms', () => {
  for (const x of [0.01, 0.3, 0.77, 0.999]) {
    expect(incompleteBeta(x, 1, 3.5)).toBeCloseTo(1 - (1 - x) ** 3.5, 12)
    expect(incompleteBeta(x, 4.2, 1)).toBeCloseTo(x ** 4.2, 12)
    expect(incompleteBeta(x, 2.3, 17)).toBeCloseTo(1 - incompleteBeta(1 - x, 17, 2.3), 12)
  }
  expect(incompleteBeta(0.5, 60, 60)).toBeCloseTo(0.5, 12)
  expect(incompleteBeta(0, 2, 3)).toBe(0)
  expect(() => incompleteBeta(1.2, 2, 3)).toThrow(RangeError)
})
