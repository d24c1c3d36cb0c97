import { mad, MAD_TO_SD } from '../maths/mad.ts'
import { median } from '../maths/median.ts'
import type { SampleRange } from './event.ts'
import type { Signal } from './signal.ts'

/**
 * Droop of a pickup that passes no steady voltage (a capacitive divider with a leak): what it shows is the voltage less
 * all it has shown before, fading with the time constant. `perS` is the inverse of that, 1/s; `meanKv` the level that
 * stands for zero, the mean of the record, upright.
 */
export interface Droop {
  perS: number
  meanKv: number
}

/** Standard error of a median of n normal values, in units of sd / sqrt(n). */
const MEDIAN_EFFICIENCY = Math.sqrt(Math.PI / 2)
/** Rest is averaged over this length, and looked at this long after an event: droop has faded by then, drift has not. */
const POINT_S = 0.5e-3
const LOOKED_AT_S = 20e-3
/** Fewest events, and fewest points of rest after one. */
const LEAST_EVENTS = 6
const LEAST_POINTS = 3
/** Droop counts when it is this many standard errors of its median over the events from nothing ... */
const LEAST_SURENESS = 6
/** ... explains this share of how the rest moves after an event ... */
const LEAST_SHARE = 0.8
/** ... and its time constant lies between these, s: a shorter one leaves no line, a longer one bends none. */
const SHORTEST_S = 1.5e-3
const LONGEST_S = 0.1

/** An event's rest before it, and the stretch after it in which the coil is at rest again; samples of the record, kV upright. */
export interface RestAfter {
  restAt: number
  restKv: number
  quiet: SampleRange
}

/** Sums over the points of rest after one event: moved * area, area squared, moved squared. */
interface Sums {
  product: number
  areas: number
  moves: number
  points: number
}

/**
 * Finds droop: the voltage at rest is the same before and after an event, so that a difference the record shows is what
 * droop took away meanwhile, in proportion to the area under the event.
 *
 * @param rests  one an event
 * @returns      undefined where no droop shows
 */
export function findDroop(signal: Signal, rests: readonly RestAfter[]): Droop | undefined {
  const { data, sign } = signal
  let sum = 0
  for (let i = 0; i < data.length; i++) sum += data[i]!
  const meanKv = (sign * sum) / data.length
  const events = rests
    .map((rest) => sumsOver(signal, rest, meanKv))
    .filter((s) => s.points >= LEAST_POINTS && s.areas > 0)
  if (events.length < LEAST_EVENTS) return undefined
  const each = events.map((s) => -s.product / s.areas)
  const perS = median(each)!
  const error = (MEDIAN_EFFICIENCY * MAD_TO_SD * mad(each)!) / Math.sqrt(each.length)
  const total = (part: keyof Sums): number => events.reduce((sum, s) => sum + s[part], 0)
  const share = total('product') ** 2 / (total('areas') * total('moves'))
  const sure = perS > LEAST_SURENESS * error && share >= LEAST_SHARE
  return sure && perS > 1 / LONGEST_S && perS < 1 / SHORTEST_S ? { perS, meanKv } : undefined
}

function sumsOver(
  { data, sign, sampleS }: Signal,
  { restAt, restKv, quiet }: RestAfter,
  meanKv: number,
): Sums {
  const width = Math.max(1, Math.round(POINT_S / sampleS))
  const last = Math.min(quiet.to, quiet.from + LOOKED_AT_S / sampleS)
  const sums: Sums = { product: 0, areas: 0, moves: 0, points: 0 }
  let i = Math.round(restAt)
  let area = 0
  const from = Math.ceil(quiet.from)
  for (; i < from; i++) area += (sign * data[i]! - meanKv) * sampleS
  for (let to = from + width; to <= last; to += width) {
    let sum = 0
    for (; i < to; i++) sum += sign * data[i]! - meanKv
    const moved = sum / width + meanKv - restKv
    const areaAt = area + (sum * sampleS) / 2
    area += sum * sampleS
    sums.product += moved * areaAt
    sums.areas += areaAt * areaAt
    sums.moves += moved * moved
    sums.points++
  }
  return sums
}

/**
 * Adds back what droop has taken since the rest before an event. Changes `kv` in place, which must be the caller's own copy.
 *
 * @param kv      samples from `from` on, upright, as recorded
 * @param restAt  sample of the record about which the rest was taken
 */
export function undoDroop(
  kv: Float64Array,
  { perS, meanKv }: Droop,
  about: { restAt: number; restKv: number; from: number; sampleS: number },
): void {
  let taken = (about.restKv - meanKv) * (about.from - about.restAt) * about.sampleS * perS
  for (let i = 0; i < kv.length; i++) {
    taken += (kv[i]! - meanKv) * about.sampleS * perS
    kv[i]! += taken
  }
}
