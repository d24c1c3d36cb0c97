import { logGamma } from './gamma.ts'

const TINY = 1e-300

/**
 * Regularised incomplete beta function I_x(a, b), by its continued fraction (Lentz's method).
 *
 * @param x     0 to 1
 * @param a, b  > 0
 * @source      Abramowitz and Stegun 1964, 26.5.8
 */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (!(x >= 0 && x <= 1)) throw new RangeError(`incompleteBeta needs x from 0 to 1, got ${x}`)
  if (x === 0 || x === 1) return x
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x))
  // The fraction converges fast only on this side of the mean.
  return x < (a + 1) / (a + b + 2) ? (front * fraction(x, a, b)) / a : 1 - (front * fraction(1 - x, b, a)) / b
}

function fraction(x: number, a: number, b: number): number {
  let c = 1
  let d = 1 / away(1 - ((a + b) * x) / (a + 1))
  let result = d
  for (let m = 1; m < 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / away(1 + even * d)
    c = away(1 + even / c)
    result *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / away(1 + odd * d)
    c = away(1 + odd / c)
    result *= d * c
    if (Math.abs(d * c - 1) < 1e-16) break
  }
  return result
}

/** Keeps a divisor off zero. */
const away = (v: number): number => (Math.abs(v) < TINY ? TINY : v)
