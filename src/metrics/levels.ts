import { sum } from '../maths/mean-sd.ts'
import { absent } from '../units/measured.ts'
import { withBudget } from './budget.ts'
import type { EventFigure } from './figures.ts'
import { localLevel } from './local-level.ts'
import { kinkOf, UNKNOWN_SHARPNESS, type BendSeen, type Sharpness } from './sharpness.ts'
import { EARLY, LATE, partLine } from './slopes.ts'
import type { SparkLine } from './spark-line.ts'

/** Places of the three levels, as shares of the burn. */
export const LEVEL_SHARES = { start: 0.1, mid: 0.5, late: 0.9 } as const

/** The three levels of a spark line. */
export interface Levels { start: EventFigure<'kV'>; mid: EventFigure<'kV'>; late: EventFigure<'kV'> }

/**
 * Levels of the spark line at 10, 50 and 90 % of the burn, each a robust local level (see `localLevel`).
 *
 * @param line       of one event, kV above the pre-event level
 * @param sharpness  of the bend in the middle, as the cylinder's lines show it together (`sharpnessOf`)
 * @returns     kV; u (k = 1) from noise and turbulence, the recorder's steps, the doubt about the burn's ends and the
 *              curvature a straight local line misses. Gain is added per cylinder. Absent: `too-short`.
 * @source      definition: shop-practice
 */
export function sparkLevels(line: SparkLine, sharpness: Sharpness = UNKNOWN_SHARPNESS): Levels {
  const change = changeOfSlope(line)
  const at = (share: number): EventFigure<'kV'> => {
    const level = localLevel(line, share, { changeOfSlope: change, sharpness: share === LEVEL_SHARES.mid ? sharpness : undefined })
    return level ? withBudget(level.kv, 'kV', level.budget) : absent('too-short')
  }
  return { start: at(LEVEL_SHARES.start), mid: at(LEVEL_SHARES.mid), late: at(LEVEL_SHARES.late) }
}

/**
 * A level with the doubt about the zero it is counted from. Differences of levels of one event are free of it: take
 * them first.
 * @param zeroU  standard uncertainty of the level taken off, kV (see `zeroUncertainty`)
 */
export function aboveZero(level: EventFigure<'kV'>, zeroU: number): EventFigure<'kV'> {
  return level.ok ? withBudget(level.value, 'kV', [...(level.budget ?? []), { source: 'noise', u: zeroU }]) : level
}

/**
 * Standard uncertainty of the level before an event, kV, from the changes of that level from one event to the next:
 * hum and drift move it between the moment it is read and the burn about as much.
 *
 * @param baselinesKv  of one channel's events in order of time
 * @returns            0 for a single event, where nothing shows it
 * @source             half the mean square successive difference (von Neumann 1941, Annals of Mathematical Statistics 12)
 */
export function zeroUncertainty(baselinesKv: readonly number[]): number {
  const squares = baselinesKv.slice(1).map((v, i) => (v - baselinesKv[i]!) ** 2)
  return squares.length === 0 ? 0 : Math.sqrt(sum(squares) / squares.length / 2)
}

/** What a line shows of the bend in its middle; undefined where it is too short for that. */
export function bendOf(line: SparkLine): BendSeen | undefined {
  const kink = kinkOf(line)
  return kink === undefined ? undefined : { changeOfSlope: changeOfSlope(line), kink }
}

/** Late slope less early slope, kV per sample; their middles lie 40 % of the burn apart. */
function changeOfSlope(line: SparkLine): number {
  const early = partLine(line, EARLY)
  const late = partLine(line, LATE)
  return 'slope' in early && 'slope' in late ? late.slopeKvPerSample - early.slopeKvPerSample : 0
}
