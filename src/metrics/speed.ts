import { firingIndex } from '../ignition/firing-index.ts'
import { absent } from '../units/measured.ts'
import { withBudget } from './budget.ts'
import type { EventFigure } from './figures.ts'

/** Turns of the crankshaft between two firings of a cylinder. */
export const turnsPerCycle = (strokes: 2 | 4): number => strokes / 2

/** The other cylinders tell how many cycles went by where this share of them has the same number of events. */
const LIKE_MINDED = 2 / 3

/** Intervals between a cylinder's successive breakdowns. */
export interface CycleIntervals {
  /** s, one fewer than breakdowns. */
  intervalS: readonly number[]
  /** Events that were due within each interval and are not there. */
  missing: readonly number[]
}

/**
 * Intervals of one cylinder's breakdowns, and how many events are missing in each. Every other cylinder fires once a
 * cycle, so that the number of their events within an interval is that of its cycles, however the speed changes; where
 * they do not agree, or there are none, the cylinder's own rhythm tells (see `firingIndex`).
 *
 * @param breakdownsS  of the cylinder, rising
 * @param others       of each other cylinder of the capture, rising
 */
export function cycleIntervals(
  breakdownsS: readonly number[],
  others: readonly (readonly number[])[] = [],
): CycleIntervals {
  const intervalS = breakdownsS.slice(1).map((t, i) => t - breakdownsS[i]!)
  const { index } = firingIndex(breakdownsS)
  const counts = others.map((other) => eventsWithin(other, breakdownsS))
  const missing = intervalS.map((_, i) => {
    const cycles = agreed(counts.map((c) => c[i]!)) ?? index[i + 1]! - index[i]!
    return Math.max(0, cycles - 1)
  })
  return { intervalS, missing }
}

/** How many of the rising times lie in each interval between the edges. */
function eventsWithin(timesS: readonly number[], edgesS: readonly number[]): number[] {
  let next = timesS.findIndex((t) => t >= edgesS[0]!)
  if (next < 0) next = timesS.length
  return edgesS.slice(1).map((toS) => {
    const from = next
    while (next < timesS.length && timesS[next]! < toS) next++
    return next - from
  })
}

/** The number of cycles that enough other cylinders agree on. */
function agreed(counts: readonly number[]): number | undefined {
  const votes = new Map<number, number>()
  for (const count of counts) if (count > 0) votes.set(count, (votes.get(count) ?? 0) + 1)
  const [winner] = [...votes].toSorted((a, b) => b[1] - a[1])
  return winner && winner[1] >= LIKE_MINDED * counts.length ? winner[0] : undefined
}

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
