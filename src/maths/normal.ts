import { invertRising } from './invert.ts'

/**
 * Area of the standard normal distribution below z: series near the middle, continued fraction in the tails,
 * so that small tail areas keep their relative accuracy.
 * @source Abramowitz and Stegun 1964, 26.2.11 and 26.2.14
 */
export function normalCdf(z: number): number {
  if (Math.abs(z) < 3) return 0.5 + normalDensity(z) * oddSeries(z)
  const tail = normalDensity(z) * tailFraction(Math.abs(z))
  return z < 0 ? tail : 1 - tail
}

/** Height of the standard normal distribution. */
function normalDensity(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)
}

/** Standard uncertainties in half a two-sided interval of 95 %, normal. @source JCGM 100:2008, table G.1 (1.960) */
export const K95 = 1.959963984540054
/** Quantile of a one-sided 95 % bound, normal. */
export const K95_ONE_SIDED = 1.6448536269514722

/** Value below which the share p of a standard normal distribution lies. @throws RangeError unless 0 < p < 1. */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`a normal quantile needs 0 < p < 1, got ${p}`)
  // The tail below zero is the accurate one.
  if (p > 0.5) return -normalQuantile(1 - p)
  return invertRising(normalCdf, p, { low: -8, high: 0.5 })
}

/** z + z^3/3 + z^5/(3*5) + ... */
function oddSeries(z: number): number {
  let term = z
  let total = z
  for (let k = 3; Math.abs(term) > Math.abs(total) * 1e-17; k += 2) {
    term *= (z * z) / k
    total += term
  }
  return total
}

/** 1/(z + 1/(z + 2/(z + 3/(z + ...)))), from the far end. */
function tailFraction(z: number): number {
  let rest = z
  for (let k = 120; k >= 1; k--) rest = z + k / rest
  return 1 / rest
}
