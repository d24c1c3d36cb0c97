import { incompleteBeta } from './incomplete-beta.ts'
import { invertRising } from './invert.ts'

/**
 * Area of Student's t distribution below t.
 * @param freedom  degrees of freedom > 0, not only whole numbers
 * @source Abramowitz and Stegun 1964, 26.7.1
 */
export function studentTCdf(t: number, freedom: number): number {
  if (!(freedom > 0)) throw new RangeError(`Student's t needs degrees of freedom above 0, got ${freedom}`)
  const squares = t * t
  // Near the middle the area between is the small one, and keeps its accuracy.
  const beyond =
    squares < freedom
      ? 0.5 - 0.5 * incompleteBeta(squares / (freedom + squares), 0.5, freedom / 2)
      : 0.5 * incompleteBeta(freedom / (freedom + squares), freedom / 2, 0.5)
  return t < 0 ? beyond : 1 - beyond
}

/** Value below which the share p of Student's t distribution lies. @throws RangeError unless 0 < p < 1. */
export function studentTQuantile(p: number, freedom: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`a quantile of Student's t needs 0 < p < 1, got ${p}`)
  if (p === 0.5) return 0
  if (p > 0.5) return -studentTQuantile(1 - p, freedom)
  return invertRising((t) => studentTCdf(t, freedom), p, { low: -8, high: 0 })
}

/** Factor by which a standard uncertainty is multiplied for a two-sided interval. @source JCGM 100:2008, G.3 */
export function coverageFactor(confidence: number, freedom: number): number {
  return studentTQuantile(0.5 + confidence / 2, freedom)
}
