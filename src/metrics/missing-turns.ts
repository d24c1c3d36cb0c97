import { byFrame } from './frames.ts'
import { cycleIntervals } from './speed.ts'

/** A firing event as far as counting turns goes: when, and whose; undefined where that could not be told. */
export interface Turn {
  breakdownS: number
  cylinder: number | undefined
  frame?: number | undefined
}

/** Fewest events of another cylinder that make a clock. */
const LEAST_CLOCK_EVENTS = 3

/**
 * Turns of a cylinder that went by without an event. The other cylinder with the most events is the clock: every one of
 * its working cycles holds one turn of this cylinder. A cycle in which the cylinder of some event could not be told is
 * left out, since the event may be this cylinder's. Without another cylinder, its own rhythm tells. Counted frame by frame.
 *
 * @param firing  firing events of a capture, cut ones included, in any order
 */
export function missingTurns(firing: readonly Turn[], cylinder: number): number {
  return total(byFrame(firing).map((own) => missingWithin(own, cylinder)))
}

function missingWithin(firing: readonly Turn[], cylinder: number): number {
  const clock = clockOf(firing, cylinder)
  const own = timesOf(firing, cylinder)
  if (!clock) return total(cycleIntervals(own).missing)
  const untold = timesOf(firing, undefined)
  const { missing } = cycleIntervals(clock)
  return total(
    missing.map((more, i) => {
      const within = (t: number): boolean => t >= clock[i]! && t < clock[i + 1]!
      return untold.some(within) ? 0 : Math.max(0, 1 + more - own.filter(within).length)
    }),
  )
}

/** Breakdowns of the other cylinder with the most events; the lowest number of equals. */
function clockOf(firing: readonly Turn[], cylinder: number): number[] | undefined {
  const others = [...new Set(firing.flatMap((e) => e.cylinder ?? []))]
    .filter((c) => c !== cylinder)
    .toSorted((a, b) => a - b)
  const longest = others.map((c) => timesOf(firing, c)).reduce((a, b) => (b.length > a.length ? b : a), [])
  return longest.length >= LEAST_CLOCK_EVENTS ? longest : undefined
}

const timesOf = (firing: readonly Turn[], cylinder: number | undefined): number[] =>
  firing
    .filter((e) => e.cylinder === cylinder)
    .map((e) => e.breakdownS)
    .toSorted((a, b) => a - b)

const total = (counts: readonly number[]): number => counts.reduce((sum, n) => sum + n, 0)
