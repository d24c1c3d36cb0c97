import { absent, type Measured } from '../units/measured.ts'
import { withBudget } from './budget.ts'
import { localLevel } from './local-level.ts'
import { EARLY, LATE, partLine } from './slopes.ts'
import type { SparkLine } from './spark-line.ts'

/** Places of the three levels, as shares of the burn. */
export const LEVEL_SHARES = { start: 0.1, mid: 0.5, late: 0.9 } as const

/** The three levels of a spark line. */
export interface Levels { start: Measured<'kV'>; mid: Measured<'kV'>; late: Measured<'kV'> }

/**
 * Levels of the spark line at 10, 50 and 90 % of the burn, each a robust local level (see `localLevel`).
 *
 * @param line  of one event, kV above the pre-event level
 * @returns     kV; u (k = 1) from noise and turbulence, the recorder's steps, the doubt about the burn's ends and the
 *              curvature a straight local line misses. Gain is added per cylinder. Absent: `too-short`.
 * @source      definition: shop-practice
 */
export function sparkLevels(line: SparkLine): Levels {
  const curvature = curvatureOf(line)
  const at = (share: number): Measured<'kV'> => {
    const level = localLevel(line, share, curvature)
    return level ? withBudget(level.kv, 'kV', level.budget) : absent('too-short')
  }
  return { start: at(LEVEL_SHARES.start), mid: at(LEVEL_SHARES.mid), late: at(LEVEL_SHARES.late) }
}

/** Second derivative of the line, kV per sample squared, from its two slopes, whose middles lie 40 % of the burn apart. */
function curvatureOf(line: SparkLine): number {
  const early = partLine(line, EARLY)
  const late = partLine(line, LATE)
  if (!('slope' in early) || !('slope' in late)) return 0
  return (late.slopeKvPerSample - early.slopeKvPerSample) / (0.4 * (line.to - line.from))
}
