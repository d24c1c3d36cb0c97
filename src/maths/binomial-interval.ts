import { binomialCdf } from './binomial.ts'
import { invertRising } from './invert.ts'

/**
 * Exact interval of a share seen as hits of total, by inverting the binomial distribution at both ends; its coverage
 * is never below the stated one.
 *
 * @throws RangeError unless 0 <= hits <= total and total > 0
 * @source Clopper and Pearson 1934, Biometrika 26(4), 404-413
 */
export function binomialInterval(
  { hits, total }: { hits: number; total: number },
  confidence = 0.95,
): { low: number; high: number } {
  if (!(total > 0 && hits >= 0 && hits <= total)) throw new RangeError(`no share in ${hits} of ${total}`)
  const tail = (1 - confidence) / 2
  const from = { low: 0, high: 1 }
  return {
    low: hits === 0 ? 0 : invertRising((p) => 1 - binomialCdf(hits - 1, total, p), tail, from),
    high: hits === total ? 1 : invertRising((p) => 1 - binomialCdf(hits, total, p), 1 - tail, from),
  }
}
