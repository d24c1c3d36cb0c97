/** Lanczos coefficients, g = 7, n = 9 (Godfrey). */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
] as const

/**
 * Natural logarithm of the gamma function for x > 0, relative error about 1e-15.
 * @source Lanczos 1964, SIAM Journal on Numerical Analysis B 1, 86-96
 */
export function logGamma(x: number): number {
  if (!(x > 0)) throw new RangeError(`logGamma needs x > 0, got ${x}`)
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x)
  const shifted = x - 1
  const base = shifted + 7.5
  let series: number = LANCZOS[0]
  for (let k = 1; k < LANCZOS.length; k++) series += LANCZOS[k]! / (shifted + k)
  return 0.5 * Math.log(2 * Math.PI) + (shifted + 0.5) * Math.log(base) - base + Math.log(series)
}
