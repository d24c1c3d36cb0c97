import { normalCdf } from './normal.ts'

/**
 * Chance that the true value conforms, given a normal measurement result and no other knowledge of the item.
 *
 * @param result  estimate and its standard uncertainty, in the unit of the limits
 * @param limits  either or both; a side left out is open
 * @source        JCGM 106:2012, 7.2 to 7.4
 */
export function conformanceProbability(
  result: { value: number; u: number },
  limits: { low?: number; high?: number },
): number {
  const below = limits.low === undefined ? 0 : normalCdf((limits.low - result.value) / result.u)
  const above = limits.high === undefined ? 0 : normalCdf((result.value - limits.high) / result.u)
  return 1 - below - above
}
