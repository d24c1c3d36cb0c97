import { median } from '../maths/median.ts'
import { absent } from '../units/measured.ts'
import { withBudget } from './budget.ts'
import type { EventFigure } from './figures.ts'

/** Turns of the crankshaft between two firings of a cylinder. */
export const turnsPerCycle = (strokes: 2 | 4): number => strokes / 2

/** An interval this many times its neighbours' has a missing event in it. */
const MISSING_FROM = 1.6

/** Intervals between a cylinder's successive breakdowns. */
export interface CycleIntervals {
  /** s, one fewer than breakdowns. */
  intervalS: readonly number[]
  /** Events that were due within each interval and are not there. */
  missing: readonly number[]
}

/**
 * Intervals of one cylinder's breakdowns, and how many events are missing in each: an interval of about k times the
 * median of its neighbours (two before, two after) lacks k - 1 events. Neighbours, not the whole capture, so that an
 * engine that runs up is not taken for one that misses. The other cylinders turn with the same crankshaft: their
 * intervals at the time count as neighbours too, so that a cylinder that misses more often than not is seen through.
 *
 * @param breakdownsS  of the cylinder, rising
 * @param others       of each other cylinder of the capture, rising
 */
export function cycleIntervals(
  breakdownsS: readonly number[],
  others: readonly (readonly number[])[] = [],
): CycleIntervals {
  const intervalS = intervalsOf(breakdownsS)
  const beside = others
    .flatMap((other) =>
      intervalsOf(other).map((lengthS, i) => ({ fromS: other[i]!, toS: other[i + 1]!, lengthS })),
    )
    .toSorted((a, b) => a.fromS - b.fromS)
  const longestS = beside.reduce((most, b) => Math.max(most, b.lengthS), 0)
  let first = 0
  const missing = intervalS.map((interval, i) => {
    const [fromS, toS] = [breakdownsS[i]!, breakdownsS[i + 1]!]
    while (first < beside.length && beside[first]!.fromS < fromS - longestS) first++
    const near = [...intervalS.slice(Math.max(0, i - 2), i), ...intervalS.slice(i + 1, i + 3)]
    for (let k = first; k < beside.length && beside[k]!.fromS < toS; k++)
      if (beside[k]!.toS > fromS) near.push(beside[k]!.lengthS)
    const usual = median(near)
    if (usual === undefined || interval < MISSING_FROM * usual) return 0
    return Math.round(interval / usual) - 1
  })
  return { intervalS, missing }
}

const intervalsOf = (timesS: readonly number[]): number[] => timesS.slice(1).map((t, i) => t - timesS[i]!)

/**
 * Engine speed from the interval to the same cylinder's next event: one working cycle, 720 degrees of a four-stroke.
 *
 * @param intervalS  s; undefined without a next event, or with one missing in between
 * @param about      strokes, and the sampling interval in s
 * @returns          rpm; u (k = 1): both instants lie evenly between two samples. Clock error is added per capture.
 *                   Absent: `no-next-event`.
 * @source           definition; JCGM 100:2008, 4.3.7
 */
export function cycleSpeed(
  intervalS: number | undefined,
  about: { strokes: 2 | 4; sampleS: number },
): EventFigure<'rpm'> {
  if (intervalS === undefined || !(intervalS > 0)) return absent('no-next-event')
  const rpm = (60 * turnsPerCycle(about.strokes)) / intervalS
  return withBudget(rpm, 'rpm', [
    { source: 'sampling', u: (rpm * about.sampleS * Math.sqrt(2 / 12)) / intervalS },
  ])
}
