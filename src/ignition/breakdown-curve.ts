import { BLOCK_S, type Blocks } from './blocks.ts'

/** A climb is looked for over no longer than this, s. */
const LONGEST_CLIMB_S = 2.1 * BLOCK_S

/**
 * The characteristic function of breakdowns: how far the signal climbs within two neighbouring blocks (20 to 40 us).
 * A breakdown climbs kilovolts in a few microseconds; the current-limit hump and the ring take a hundred or more. Where a
 * block is one sample, that sample may fall into the middle of the climb and part it: there the block before counts too.
 *
 * @param blocks  of the upright signal
 * @returns       shape (k), kV; 0 where nothing climbs
 */
export function breakdownCurve({ min, max, size, blockS }: Blocks): Float32Array {
  const climb = new Float32Array(max.length)
  for (let k = 1; k < max.length; k++) climb[k] = Math.max(0, max[k]! - min[k - 1]!)
  if (size === 1 && 2 * blockS <= LONGEST_CLIMB_S)
    for (let k = 2; k < max.length; k++) climb[k] = Math.max(climb[k]!, max[k]! - min[k - 2]!)
  return climb
}

/** Events a second at the slowest turning worth reading: one cylinder of a four-stroke at a 200 rpm crank. */
const SLOWEST_EVENTS_HZ = 1.6

/**
 * Size of the record's stronger climbs: the value reached by half as many two-millisecond spells as the slowest
 * engine has events, so that a few freak peaks do not set it.
 */
export function typicalClimb(climb: Float32Array, blockS: number): number {
  const spell = Math.max(1, Math.round(2e-3 / blockS))
  const peaks: number[] = []
  for (let from = 0; from < climb.length; from += spell) {
    let most = 0
    for (let k = from; k < Math.min(from + spell, climb.length); k++) most = Math.max(most, climb[k]!)
    peaks.push(most)
  }
  peaks.sort((a, b) => b - a)
  const rank = Math.floor((climb.length * blockS * SLOWEST_EVENTS_HZ) / 2)
  return peaks[Math.min(rank, peaks.length - 1)] ?? 0
}
