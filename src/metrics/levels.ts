import { absent } from '../units/measured.ts'
import { withBudget } from './budget.ts'
import type { EventFigure } from './figures.ts'
import { localLevel, noiseFloor } from './local-level.ts'
import { kinkOf, UNKNOWN_SHARPNESS, type BendSeen, type Sharpness } from './sharpness.ts'
import { partLines, type PartLines } from './slopes.ts'
import type { SparkLine } from './spark-line.ts'
import { turbulenceOf } from './turbulence.ts'

/** Places of the three levels, as shares of the burn. */
export const LEVEL_SHARES = { start: 0.1, mid: 0.5, late: 0.9 } as const

/** The three levels of a spark line. */
export interface Levels {
  start: EventFigure<'kV'>
  mid: EventFigure<'kV'>
  late: EventFigure<'kV'>
}

/**
 * Levels of the spark line at 10, 50 and 90 % of the burn, each a robust local level (see `localLevel`).
 *
 * @param line       of one event, kV above the pre-event level
 * @param sharpness  of the bend in the middle, as the cylinder's lines show it together (`sharpnessOf`)
 * @param parts      its two robust lines
 * @returns     kV; u (k = 1) from noise and turbulence, the recorder's steps, the doubt about the burn's ends and the
 *              curvature a straight local line misses. Gain is added per cylinder. Absent: `too-short`.
 * @source      definition: shop-practice
 */
export function sparkLevels(
  line: SparkLine,
  sharpness: Sharpness = UNKNOWN_SHARPNESS,
  parts = partLines(line),
): Levels {
  const change = changeOfSlope(parts)
  const turbulence = turbulenceOf(line, noiseFloor(line))
  const at = (share: number): EventFigure<'kV'> => {
    const level = localLevel(line, share, {
      changeOfSlope: change,
      sharpness: share === LEVEL_SHARES.mid ? sharpness : undefined,
      turbulence,
    })
    return level ? withBudget(level.kv, 'kV', level.budget) : absent('too-short')
  }
  return { start: at(LEVEL_SHARES.start), mid: at(LEVEL_SHARES.mid), late: at(LEVEL_SHARES.late) }
}

/** What a line shows of the bend in its middle; undefined where it is too short for that. */
export function bendOf(line: SparkLine, parts = partLines(line)): BendSeen | undefined {
  const kink = kinkOf(line)
  return kink === undefined ? undefined : { changeOfSlope: changeOfSlope(parts), kink }
}

/** Late slope less early slope, kV per sample; their middles lie 40 % of the burn apart. */
const changeOfSlope = ({ early, late }: PartLines): number =>
  'slope' in early && 'slope' in late ? late.slopeKvPerSample - early.slopeKvPerSample : 0
