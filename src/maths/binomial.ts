import { incompleteBeta } from './incomplete-beta.ts'

/**
 * Chance of at most k successes in n trials, each with chance p.
 * @source Abramowitz and Stegun 1964, 26.5.24
 */
export function binomialCdf(k: number, n: number, p: number): number {
  if (k < 0) return 0
  if (k >= n) return 1
  const whole = Math.floor(k)
  return incompleteBeta(1 - p, n - whole, whole + 1)
}
