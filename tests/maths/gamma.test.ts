import { expect, test } from 'vitest'
import { logGamma } from '../../src/maths/gamma.ts'

// Exact: gamma(n) = (n - 1)!, gamma(1/2) = sqrt(pi).
test.each([
  [1, 0],
  [2, 0],
  [5, Math.log(24)],
  [11, Math.log(3628800)],
  [0.5, Math.log(Math.PI) / 2],
  [0.25, 1.2880225246980774],
])('ln gamma(%d)', (x, expected) => expect(logGamma(x)).toBeCloseTo(expected, 12))
test('refuses 0', () => expect(() => logGamma(0)).toThrow(RangeError))
