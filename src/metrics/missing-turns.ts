import { byFrame } from './frames.ts'
import { cycleIntervals, type CycleIntervals } from './speed.ts'

/** A firing event as far as counting turns goes: when, and whose; undefined where that could not be told. */
export interface Turn {
  breakdownS: number
  cylinder: number | undefined
  /** Not of the capture's condition: no turn is counted beside it. */
  leftOut?: boolean
  frame?: number | undefined
}

/** Fewest events of another cylinder that make a clock. */
const LEAST_CLOCK_EVENTS = 3

/** A cycle is of the speed of those beside it where it is as long as they are to this share. */
const HOLDS_WITHIN = 0.2

/**
 * Turns of a cylinder that went by without an event. The other cylinder with the most events is the clock: every one of
 * its working cycles holds one turn of this cylinder. A turn counts as missed only on positive evidence: the further
 * cylinders all fired in that cycle, or its length is that of the cycles beside it. A speed that changes is never taken
 * for turns that went by. A cycle in which the cylinder of some event could not be told is left out, since the event may
 * be this cylinder's. Without another cylinder, its own rhythm tells, where it holds. Counted frame by frame.
 *
 * @param firing  firing events of a capture, cut ones included, in any order
 */
export function missingTurns(firing: readonly Turn[], cylinder: number): number {
  return total(byFrame(firing).map((own) => missingWithin(own, cylinder)))
}

function missingWithin(firing: readonly Turn[], cylinder: number): number {
  const numbers = [...new Set(firing.flatMap((e) => e.cylinder ?? []))].toSorted((a, b) => a - b)
  const others = numbers.filter((c) => c !== cylinder).map((c) => timesOf(firing, c))
  const own = timesOf(firing, cylinder)
  const apart = new Set(firing.flatMap((e) => (e.leftOut ? e.breakdownS : [])))
  const clock = clockOf(others)
  if (!clock) {
    const alone = cycleIntervals(own)
    return total(alone.missing.map((count, i) => (holdsAt(alone, i) && !apart.has(own[i]!) ? count : 0)))
  }
  const further = others.filter((other) => other !== clock)
  const untold = timesOf(firing, undefined)
  const cycles = cycleIntervals(clock, further)
  return total(
    cycles.missing.map((more, i) => {
      const within = (t: number): boolean => t >= clock[i]! && t < clock[i + 1]!
      if (untold.some(within) || apart.has(clock[i]!) || apart.has(clock[i + 1]!)) return 0
      const due = 1 + more
      const confirmed = further.length > 0 && further.every((other) => other.filter(within).length === due)
      return confirmed || holdsAt(cycles, i) ? Math.max(0, due - own.filter(within).length) : 0
    }),
  )
}

/** Whether a cycle is as long as the ones next to it. */
function holdsAt({ intervalS, missing }: CycleIntervals, i: number): boolean {
  const cycleS = (k: number): number => intervalS[k]! / (1 + missing[k]!)
  return [i - 1, i + 1]
    .filter((k) => k >= 0 && k < intervalS.length)
    .every((k) => Math.abs(cycleS(k) / cycleS(i) - 1) < HOLDS_WITHIN)
}

/** Breakdowns of the other cylinder with the most events; the lowest number of equals. */
function clockOf(others: readonly number[][]): number[] | undefined {
  const longest = others.reduce((a, b) => (b.length > a.length ? b : a), [])
  return longest.length >= LEAST_CLOCK_EVENTS ? longest : undefined
}

const timesOf = (firing: readonly Turn[], cylinder: number | undefined): number[] =>
  firing
    .filter((e) => e.cylinder === cylinder)
    .map((e) => e.breakdownS)
    .toSorted((a, b) => a - b)

const total = (counts: readonly number[]): number => counts.reduce((sum, n) => sum + n, 0)
