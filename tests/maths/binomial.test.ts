import { expect, test } from 'vitest'
import { binomialCdf } from '../../src/maths/binomial.ts'

// First: (1 + 10 + 45 + 120) / 1024. Others computed with scipy.stats.binom.
test.each([
  [3, 10, 0.5, 176 / 1024],
  [17, 50, 0.3, 0.7821930616104384],
  [0, 5, 0.2, 0.32768],
  [-1, 5, 0.2, 0],
  [5, 5, 0.2, 1],
])('at most %d of %d', (k, n, p, expected) => expect(binomialCdf(k, n, p)).toBeCloseTo(expected, 12))
