import { mad, MAD_TO_SD } from '../maths/mad.ts'
import { median } from '../maths/median.ts'
import type { SampleRange } from './event.ts'
import type { Signal } from './signal.ts'

/**
 * Droop of an AC-coupled pickup (a capacitive divider with a leak): what it shows is the voltage less all it has shown
 * before, fading with the time constant. `perS` is the inverse of that, 1/s, 0 where the record does not show any;
 * `u` its standard uncertainty; `meanKv` the level that stands for zero, the mean of the record, upright.
 */
export interface Droop {
  perS: number
  u: number
  meanKv: number
}

/** Rest is averaged over this length, and looked at up to this long after the coil has come to rest. */
const POINT_S = 0.5e-3
const LOOKED_AT_S = 20e-3
/** Fewest events. */
const LEAST_EVENTS = 6
/** Groups of events left out in turn. */
const MOST_GROUPS = 40
/** The mean trail tells where it has so many points, unless events by themselves are this many times surer: where rests are too short to show a trail. */
const LEAST_POINTS = 3
const MOST_WORSE = 3
/** An event whose rest strays from the others' by more than this many times their usual misfit is disturbed. */
const MOST_MISFIT = 9
/** Droop counts, and is undone, when it is this many standard uncertainties from nothing; else it is left in doubt ... */
const LEAST_SURENESS = 4
/** Beyond so many there is a hint of it: anything from none to all of it is as likely. */
const LEAST_HINT = 2
/** ... explains this share of how the rest moves after an event, noise taken out ... */
const LEAST_SHARE = 0.8
/** ... and its time constant lies between these, s: a shorter one leaves no line, a longer one bends none. */
const SHORTEST_S = 1.5e-3
const LONGEST_S = 0.1
/** Pickups with a shorter one are not in use. From memory. */
const SHORTEST_USUAL_S = 3e-3
/**
 * What is known of a pickup before its record is looked at, 1/s (standard deviation about no droop): AC-coupled ones are in
 * use, of 3 to 50 ms (333 to 20 per s). A record of coarse and quiet steps shows no droop and excludes none.
 * This project's judgement.
 */
const KNOWN_BEFORE = 60

/** An event's rest before it, and the stretch after it in which the coil is at rest again; samples of the record, kV upright. */
export interface RestAfter {
  restAt: number
  restKv: number
  quiet: SampleRange
}

/** What the recorder does to the samples. */
interface Steps {
  noiseKv: number
  quantumKv: number
}

/** Points of rest after one event: how far the rest has moved there, kV, and the area since the rest before, kV s. */
interface Trail {
  moved: number[]
  area: number[]
}

/**
 * Finds droop: the voltage at rest is the same before and after an event, so that a difference the record shows is what
 * droop took away meanwhile, in proportion to the area under the whole event. Dwell and burn nearly cancel there, and a
 * recorder's step is higher than what is left: only many events together show it.
 *
 * @param rests  one an event
 * @returns      undefined where too few events have a rest before and after them
 * @source       a first-order high-pass; uncertainty by jackknife over the events (Efron and Tibshirani 1993, ch. 11)
 */
export function findDroop(signal: Signal, rests: readonly RestAfter[], steps: Steps): Droop | undefined {
  const meanKv = zeroOf(signal, rests)
  const trails = undisturbed(
    rests.map((rest) => trailOf(signal, rest, meanKv)).filter((t) => t.moved.length > 0),
  )
  if (trails.length < LEAST_EVENTS) return undefined
  const together = jackknife(trails, curveSlope)
  const apart = jackknife(trails, slopeOf)
  const curve = meanTrail(trails)
  const byCurve = curve.moved.length >= LEAST_POINTS && together.u < MOST_WORSE * apart.u
  const { perS, u: eventsU } = byCurve ? together : apart
  const spread = spreadOf(rests)
  const carried = (noiseKv: number): number =>
    stepsU(curve, { ...steps, noiseKv: Math.hypot(noiseKv, spread) })
  const u = Math.hypot(eventsU, carried(steps.noiseKv))
  const share = shareOf(curve, perS)
  const isDroop = (!byCurve || share >= LEAST_SHARE) && perS > 1 / LONGEST_S && perS < 1 / SHORTEST_S
  if (isDroop && perS > LEAST_SURENESS * u) {
    // How large it is, is known less well than that it is there: hum and rings in step with the events pull at it.
    const misfit = byCurve ? perS * Math.sqrt(1 - share) : 0
    return { perS, u: Math.hypot(eventsU, carried(withoutSteps(steps)), misfit), meanKv }
  }
  if (perS < LEAST_HINT * u) return { perS: 0, u: leftInDoubt(u), meanKv }
  const most = Math.min(perS, 1 / SHORTEST_USUAL_S)
  return { perS: most / 2, u: most / Math.sqrt(12), meanKv }
}

/** Noise before the recorder, kV, at the least: the steps themselves look like noise. @source Sheppard's correction, see `metrics/zero.ts` */
const withoutSteps = ({ noiseKv, quantumKv }: Steps): number =>
  Math.sqrt(Math.max(0, noiseKv ** 2 - quantumKv ** 2 / 12))

/** Doubt after the record was looked at and nothing sure was found, 1/s. @source product of two normal densities */
const leftInDoubt = (u: number): number => (u * KNOWN_BEFORE) / Math.hypot(u, KNOWN_BEFORE)

/** How far the rests before the events lie apart, kV: as noise does, that carries them across a recorder's steps. */
const spreadOf = (rests: readonly RestAfter[]): number => MAD_TO_SD * (mad(rests.map((r) => r.restKv)) ?? 0)

/**
 * Level that stands for zero: an AC-coupled pickup shows nothing on average, taken from one rest to another, since what
 * the ends of a record cut off an event is not balanced.
 */
function zeroOf({ data, sign }: Signal, rests: readonly RestAfter[]): number {
  const whole = rests.length >= LEAST_EVENTS
  const from = whole ? Math.round(rests[0]!.restAt) : 0
  const to = whole ? Math.round(rests.at(-1)!.restAt) : data.length
  let sum = 0
  for (let i = from; i < to; i++) sum += data[i]!
  return (sign * sum) / Math.max(1, to - from)
}

function trailOf(
  { data, sign, sampleS }: Signal,
  { restAt, restKv, quiet }: RestAfter,
  meanKv: number,
): Trail {
  const width = Math.max(1, Math.round(POINT_S / sampleS))
  const last = Math.min(quiet.to, quiet.from + LOOKED_AT_S / sampleS)
  const trail: Trail = { moved: [], area: [] }
  let i = Math.round(restAt)
  let area = 0
  const from = Math.ceil(quiet.from)
  for (; i < from; i++) area += (sign * data[i]! - meanKv) * sampleS
  for (let to = from + width; to <= last; to += width) {
    let sum = 0
    for (; i < to; i++) sum += sign * data[i]! - meanKv
    trail.moved.push(sum / width + meanKv - restKv)
    trail.area.push(area + (sum * sampleS) / 2)
    area += sum * sampleS
  }
  return trail
}

const product = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, v, i) => sum + v * b[i]!, 0)

/** Slope through nothing of moved against area, less the sign. */
const slopeOf = (trails: readonly Trail[]): number => {
  const areas = trails.reduce((sum, { area }) => sum + product(area, area), 0)
  return areas === 0 ? 0 : -trails.reduce((sum, { moved, area }) => sum + product(moved, area), 0) / areas
}

/** Trails without those that stray: a restrike, a neighbour's crosstalk, a hand at the lead. */
function undisturbed(trails: readonly Trail[]): Trail[] {
  const perS = slopeOf(trails)
  const misfits = trails.map(({ moved, area }) => {
    const left = moved.map((m, i) => m + perS * area[i]!)
    return product(left, left) / left.length
  })
  const usual = median(misfits) ?? 0
  return trails.filter((_, i) => misfits[i]! <= MOST_MISFIT * usual)
}

/** Slope of the mean trail: free of what scatters both from event to event, such as hum. */
const curveSlope = (trails: readonly Trail[]): number => {
  const { moved, area } = meanTrail(trails)
  const areas = product(area, area)
  return areas === 0 ? 0 : -product(moved, area) / areas
}

/** A slope of all trails and its standard uncertainty, events being left out one after the other. */
function jackknife(
  trails: readonly Trail[],
  slope: (trails: readonly Trail[]) => number,
): { perS: number; u: number } {
  // Many events are left out some at a time.
  const size = Math.ceil(trails.length / MOST_GROUPS)
  const groups = Math.ceil(trails.length / size)
  const without = Array.from({ length: groups }, (_, g) => slope(trails.filter((__, i) => i % groups !== g)))
  const mean = without.reduce((a, b) => a + b, 0) / groups
  const squares = without.reduce((sum, v) => sum + (v - mean) ** 2, 0)
  return { perS: slope(trails), u: Math.sqrt(((groups - 1) / groups) * squares) }
}

/** The trail of all events together, as long as half of them go, with the variance of each of its points. */
interface Curve extends Trail {
  variance: number[]
}

function meanTrail(trails: readonly Trail[]): Curve {
  const curve: Curve = { moved: [], area: [], variance: [] }
  for (let k = 0; ; k++) {
    const here = trails.filter((t) => t.moved.length > k)
    if (here.length < Math.max(2, trails.length / 2)) return curve
    const moved = here.reduce((sum, t) => sum + t.moved[k]!, 0) / here.length
    const squares = here.reduce((sum, t) => sum + (t.moved[k]! - moved) ** 2, 0)
    curve.moved.push(moved)
    curve.area.push(here.reduce((sum, t) => sum + t.area[k]!, 0) / here.length)
    curve.variance.push(squares / (here.length - 1) / here.length)
  }
}

/** Share of the mean trail's movement that droop explains, what chance alone makes of it taken out. */
function shareOf({ moved, area, variance }: Curve, perS: number): number {
  const chance = variance.reduce((a, b) => a + b, 0)
  const left = moved.map((m, i) => m + perS * area[i]!)
  const movement = product(moved, moved) - chance
  return movement <= 0 ? 0 : 1 - Math.max(0, product(left, left) - chance) / movement
}

/** What a recorder's steps leave where the noise is too small to carry the rest across them. @source see `stepUncertainty` */
function stepsU({ area }: Curve, { noiseKv, quantumKv }: Steps): number {
  const squares = product(area, area)
  if (quantumKv === 0 || squares === 0) return 0
  const left = (quantumKv / Math.sqrt(6)) * Math.exp(-2 * ((Math.PI * noiseKv) / quantumKv) ** 2)
  return (left * Math.abs(area.reduce((a, b) => a + b, 0))) / squares
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
