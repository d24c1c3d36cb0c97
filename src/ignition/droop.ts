import { mad, MAD_TO_SD } from '../maths/mad.ts'
import { median } from '../maths/median.ts'
import { K95, K95_ONE_SIDED } from '../maths/normal.ts'
import { droopInDwell, type DwellSeen } from './droop-in-dwell.ts'
import type { SampleRange } from './event.ts'
import type { Signal } from './signal.ts'

/**
 * Droop of an AC-coupled pickup (a capacitive divider with a leak): what it shows is the voltage less all it has shown
 * before, fading with the time constant. `perS` is the inverse of that as it is undone, 1/s, 0 where the record does not
 * show any; it lies between `low` and `high` at 95 %. No pickup fades backwards: the doubt about one that shows no droop
 * has one side. `meanKv` is the level that stands for zero, the mean of the record, upright.
 */
export interface Droop {
  perS: number
  low: number
  high: number
  meanKv: number
}

/** Rest is averaged over this length, and looked at up to this long after the coil has come to rest. */
const POINT_S = 0.5e-3
const LOOKED_AT_S = 20e-3
/** Fewest events. */
const LEAST_EVENTS = 6
/** Groups of events left out in turn. */
const MOST_GROUPS = 40
/** The mean trail has a shape where it has so many points; rests may be too short for that. */
const LEAST_POINTS = 3
/** An event whose rest strays from the others' by more than this many times their usual misfit is disturbed. */
const MOST_MISFIT = 9
/** Droop counts, and is undone, when it is this many standard uncertainties from nothing; else it is left in doubt ... */
const LEAST_SURENESS = 4
/** A held current shows little else but droop. */
const LEAST_SURENESS_HELD = 3
/** Beyond so many there is a hint of it: none is not excluded. */
const LEAST_HINT = 2
/** ... explains this share of how the rest moves after an event, noise taken out ... */
const LEAST_SHARE = 0.8
/** ... and its time constant lies between these, s: a shorter one leaves no line, a longer one bends none. */
const SHORTEST_S = 1.5e-3
const LONGEST_S = 0.1
/**
 * Pickups with a shorter one than the first are not in use, from memory. Where a record shows nothing, the second is the
 * shortest left in doubt: with one pickup in seven AC-coupled, evenly in the logarithm from 3 to 50 ms, 97 % hold for
 * longer. This project's judgement.
 */
const SHORTEST_USUAL_S = 3e-3
const SHORTEST_LEFT_S = 5e-3
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
 * recorder's step is higher than what is left: only many events together show it. Where the driver holds its current,
 * the end of the dwell shows it more plainly (`droopInDwell`).
 *
 * @param rests   one an event
 * @param dwells  of the events whose dwell is seen
 * @returns       undefined where too few events have a rest before and after them, and no dwell tells
 * @source        a first-order high-pass; uncertainty by jackknife over the events (Efron and Tibshirani 1993, ch. 11)
 */
export function findDroop(
  signal: Signal,
  { rests, dwells }: { rests: readonly RestAfter[]; dwells: readonly DwellSeen[] },
  steps: Steps,
): Droop | undefined {
  const meanKv = zeroOf(signal, rests)
  const rested = droopAtRest(signal, { rests, meanKv }, steps)
  const held = droopInDwell(signal, dwells, { meanKv, quantumKv: steps.quantumKv })
  if (rested === undefined && held === undefined) return undefined
  const sized = rested && { perS: rested.perS, u: rested.sizeU }
  // A rest that moves otherwise than droop would move it says little beside a dwell that tells.
  const { perS, u } = held ? together([rested?.fits ? sized : undefined, held]) : sized!
  const isUsual = perS > 1 / LONGEST_S && perS < 1 / SHORTEST_S
  const isSure = held ? perS > LEAST_SURENESS_HELD * u : rested!.fits && perS > LEAST_SURENESS * rested!.u
  if (isUsual && isSure) return { perS, low: perS - K95 * u, high: perS + K95 * u, meanKv }
  const most = 1 / (held ? SHORTEST_USUAL_S : SHORTEST_LEFT_S)
  const high = Math.min(Math.max(0, perS) + K95_ONE_SIDED * u, most)
  const isHint = perS > LEAST_HINT * (held ? u : rested!.u) && (held !== undefined || rested!.fits)
  if (!isHint) return { perS: 0, low: 0, high, meanKv }
  // A held current shows how large it is; the rest shows it badly, and none is as likely as all of it.
  const shown = held ? perS : Math.min(perS, 1 / SHORTEST_USUAL_S) / 2
  return { perS: shown, low: 0, high: Math.min(Math.max(high, shown), 1 / SHORTEST_USUAL_S), meanKv }
}

/** One look at the droop: its inverse time constant and standard uncertainty, 1/s. */
interface Seen {
  perS: number
  u: number
}

/**
 * Two looks taken together, each by its certainty; where they differ by more than that allows, the doubt grows with it.
 * @source weighted mean with Birge's ratio (Birge 1932, Physical Review 40, 207-227)
 */
function together(looks: readonly (Seen | undefined)[]): Seen {
  const seen = looks.filter((l) => l !== undefined)
  const weight = seen.reduce((sum, { u }) => sum + 1 / u ** 2, 0)
  const perS = seen.reduce((sum, s) => sum + s.perS / s.u ** 2, 0) / weight
  const squares = seen.reduce((sum, s) => sum + ((s.perS - perS) / s.u) ** 2, 0)
  return { perS, u: Math.sqrt(Math.max(1, squares / Math.max(1, seen.length - 1)) / weight) }
}

/** Droop by the rest after the events: `u` for whether it is there, `sizeU` for how large, `fits` where it explains the rest. */
function droopAtRest(
  signal: Signal,
  { rests, meanKv }: { rests: readonly RestAfter[]; meanKv: number },
  steps: Steps,
): (Seen & { sizeU: number; fits: boolean }) | undefined {
  const trails = undisturbed(
    rests.map((rest) => trailOf(signal, rest, meanKv)).filter((t) => t.moved.length > 0),
  )
  if (trails.length < LEAST_EVENTS) return undefined
  const curve = meanTrail(trails)
  const { perS, u: eventsU } = jackknife(trails, curveSlope)
  const spread = spreadOf(rests)
  const carried = (noiseKv: number): number =>
    stepsU(curve, { ...steps, noiseKv: Math.hypot(noiseKv, spread) })
  const showsShape = curve.moved.length >= LEAST_POINTS
  return {
    perS,
    u: Math.max(LEAST_U, Math.hypot(eventsU, carried(steps.noiseKv))),
    // How large it is, is known less well than that it is there: hum and rings in step with the events pull at it.
    sizeU: Math.max(LEAST_U, Math.hypot(eventsU, carried(withoutSteps(steps)), misfitOf(curve, perS))),
    fits: !showsShape || shareOf(curve, perS) >= LEAST_SHARE,
  }
}

/** No record knows it better than this, 1/s. */
const LEAST_U = 1e-3

/** Noise before the recorder, kV, at the least: the steps themselves look like noise. @source Sheppard's correction, see `metrics/zero.ts` */
const withoutSteps = ({ noiseKv, quantumKv }: Steps): number =>
  Math.sqrt(Math.max(0, noiseKv ** 2 - quantumKv ** 2 / 12))

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

/**
 * Slope of the mean trail. What wanders between the rest and an event, such as hum or drift, scatters the areas of single
 * events more than these differ, and would pull a slope through all of them towards nothing.
 */
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

/** What droop does not explain of the movement, as a droop of its size, 1/s. */
function misfitOf({ moved, area, variance }: Curve, perS: number): number {
  const left = moved.map((m, i) => m + perS * area[i]!)
  const beyond = product(left, left) - variance.reduce((a, b) => a + b, 0)
  return Math.sqrt(Math.max(0, beyond) / product(area, area))
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
