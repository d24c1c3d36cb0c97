import { firingPath } from './firing-path.ts'

/** Place of each event in the endless row of firings; an event not found leaves a gap. */
export interface FiringIndex {
  /** Whole numbers, 0 at the first event, rising; two events in one turn share theirs. */
  index: readonly number[]
  /** Interval of one firing at each event, s. */
  stepS: readonly number[]
}

/**
 * Counts the firings of a row that nothing but its own rhythm tells.
 *
 * @param timesS  rising
 */
export const firingIndex = (timesS: readonly number[]): FiringIndex =>
  indexOf(timesS, firingPath({ timesS, cycle: 1, seen: [true], pulsesS: [], pulseAt: 0 }).steps)

/**
 * The row of firings of a count.
 *
 * @param steps  by event: firings since the one before; where the count begins anew, as many as the time there holds
 */
export function indexOf(timesS: readonly number[], steps: readonly (number | undefined)[]): FiringIndex {
  const index: number[] = []
  const stepS: number[] = []
  let step = firstStepS(timesS, steps)
  timesS.forEach((t, i) => {
    const gapS = i === 0 ? 0 : t - timesS[i - 1]!
    const count = i === 0 ? 0 : (steps[i] ?? Math.max(1, Math.round(gapS / step)))
    if (steps[i] !== undefined && count > 0) step = gapS / count
    index.push((index[i - 1] ?? 0) + count)
    stepS.push(step)
  })
  return { index, stepS }
}

function firstStepS(timesS: readonly number[], steps: readonly (number | undefined)[]): number {
  const i = steps.findIndex((step, at) => at > 0 && step !== undefined && step > 0)
  return i > 0 ? (timesS[i]! - timesS[i - 1]!) / steps[i]! : 1
}

/** Place in the row of firings, as a fraction, of an instant: between its neighbours, or beyond the ends at their pace. */
export function placeAt(timesS: readonly number[], { index, stepS }: FiringIndex, atS: number): number {
  const last = timesS.length - 1
  if (atS <= timesS[0]!) return index[0]! - (timesS[0]! - atS) / stepS[0]!
  if (atS >= timesS[last]!) return index[last]! + (atS - timesS[last]!) / stepS[last]!
  let low = 0
  let high = last
  while (high - low > 1) {
    const mid = (low + high) >> 1
    if (timesS[mid]! <= atS) low = mid
    else high = mid
  }
  return index[low]! + ((atS - timesS[low]!) / (timesS[high]! - timesS[low]!)) * (index[high]! - index[low]!)
}

/** The instant of a place in the row: the inverse of `placeAt`. */
export function timeOf(timesS: readonly number[], { index, stepS }: FiringIndex, place: number): number {
  const last = timesS.length - 1
  if (place <= index[0]!) return timesS[0]! - (index[0]! - place) * stepS[0]!
  for (let i = 1; i <= last; i++) {
    if (place > index[i]!) continue
    const share = (place - index[i - 1]!) / (index[i]! - index[i - 1]!)
    return timesS[i - 1]! + share * (timesS[i]! - timesS[i - 1]!)
  }
  return timesS[last]! + (place - index[last]!) * stepS[last]!
}
