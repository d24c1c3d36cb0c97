/** Place of each event in the endless row of firings, counted by time so that an event not found leaves a gap. */
export interface FiringIndex {
  /** Whole numbers, 0 at the first event, rising; two events less than half a step apart share theirs. */
  index: readonly number[]
  /** Whether the step to this event from the one before is beyond doubt; true for the first. */
  sure: readonly boolean[]
  /** Interval of one step in force at each event, s. */
  stepS: readonly number[]
}

/** A step whose length is within this of a whole number of intervals is beyond doubt. */
const SURE_WITHIN = 0.25
/** Over more steps than this the speed may have changed too much for the count to be sure. */
const MOST_SURE_STEPS = 6
/** Share of each new interval taken into the running one: follows a snap of the throttle, rides over uneven firing. */
const GAIN = 0.3

/**
 * Counts firings by time.
 *
 * @param timesS  rising
 * @param stepS   length of one step at the start, s
 */
export function firingIndex(timesS: readonly number[], stepS: number): FiringIndex {
  const index: number[] = []
  const sure: boolean[] = []
  const used: number[] = []
  let step = stepS
  timesS.forEach((t, i) => {
    if (i === 0) {
      index.push(0)
      sure.push(true)
    } else {
      const gap = (t - timesS[i - 1]!) / step
      const count = Math.round(gap)
      const clear = count > 0 && Math.abs(gap - count) < SURE_WITHIN && count <= MOST_SURE_STEPS
      index.push(index[i - 1]! + count)
      sure.push(clear)
      if (clear) step += GAIN * step * (gap / count - 1)
    }
    used.push(step)
  })
  return { index, sure, stepS: used }
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
