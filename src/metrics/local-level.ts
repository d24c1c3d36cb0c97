import { stepUncertainty } from '../maths/quantisation.ts'
import type { BudgetLine } from './figures.ts'
import { FIRST_SHARE, LAST_SHARE, PICKING_SPREAD_MS, type SparkLine } from './spark-line.ts'
import { SLOPES_APART, type Sharpness } from './sharpness.ts'
import type { Turbulence } from './turbulence.ts'
import { weightedLine, type LineFit, type Window } from './weighted-line.ts'

/** Level of the spark line at one point, kV, with its uncertainty. */
export interface LocalLevel {
  kv: number
  budget: BudgetLine[]
}

/** What the line as a whole shows: its change of slope, kV per sample, from its first half to its second. */
export interface WholeLine {
  changeOfSlope: number
  /**
   * How much of it comes all at once at the place asked for: a lean line may climb from its middle on. Undefined at
   * other places.
   */
  sharpness: Sharpness | undefined
  /** How the whole line scatters about its course, where it shows. */
  turbulence?: Turbulence | undefined
}

/**
 * Width of the window, as a share of the burn: as wide as the bend of a healthy line allows for a straight line (it
 * then misses about 0.1 % of the level), since the arc's turbulence is slower than the recorder's noise and only width
 * averages it out.
 */
const WIDTH = 0.14
/** Width where that holds too few samples. */
const WIDE = 0.2
/** A straight line through an evenly bent one is right at this distance from the window's centre, in widths: 1/sqrt(12). */
const RIGHT_AT = 1 / Math.sqrt(12)
/** Fewest samples a window may hold. */
const LEAST_SAMPLES = 5

/**
 * Robust level of the spark line at a share of the burn: a bisquare-weighted straight line through a window of at most
 * 14 % of the burn, read off at the very point, so that neither the slope of the line nor a lopsided window (kept
 * between 4 % and 92 %) pulls it. It stays a weighted mean of many samples, so that a coarse recorder's steps average
 * out as far as noise and slope allow.
 *
 * @param at     0..1
 * @param whole  the line as a whole: what a straight line over the window misses (`missedByLine`), and how rough it is
 * @returns      undefined with fewer than 5 samples in the widest window
 * @source       weights: `weightedLine`; steps: `stepUncertainty`
 */
export function localLevel(line: SparkLine, at: number, whole: WholeLine): LocalLevel | undefined {
  const length = line.to - line.from
  const centre = line.from + at * length
  for (const place of [windowAbout(at), movedWindow(at, WIDE)]) {
    const window = samplesOf(line, place)
    if (window.x.length < LEAST_SAMPLES) continue
    const fit = weightedLine(window, { at: centre, floor: noiseFloor(line) })
    if (fit)
      return levelOf(line, fit, {
        missed: missedByLine(whole, { x: window.x, centre, length }),
        samples: window.x.length,
        turbulence: whole.turbulence,
      })
  }
  return undefined
}

function levelOf(
  line: SparkLine,
  fit: LineFit,
  {
    missed,
    samples,
    turbulence,
  }: { missed: { kv: number; u: number }; samples: number; turbulence: Turbulence | undefined },
): LocalLevel {
  const { noiseKv, quantumKv, sampleS } = line.wave
  const steepness = Math.abs(fit.slope)
  const sweep = (steepness * samples) / Math.sqrt(12)
  return {
    kv: fit.kv - missed.kv,
    budget: [
      {
        source: 'noise',
        u: Math.max(
          fit.u,
          turbulence ? turbulence.sdKv * Math.sqrt(turbulence.memory) * fit.ofIndependent : 0,
        ),
      },
      {
        source: 'quantisation',
        u: stepUncertainty(
          quantumKv,
          Math.hypot(withoutSteps(turbulence?.sdKv ?? noiseKv, quantumKv), sweep),
        ),
        step: quantumKv,
      },
      { source: 'sampling', u: steepness * line.endU },
      // A spark end picked too early or too late shifts the place of every event alike.
      { source: 'method', u: Math.hypot(missed.u, (steepness * PICKING_SPREAD_MS) / (sampleS * 1000)) },
    ],
  }
}

/**
 * Window about a share of the burn, kept where the line is clean. Where there is too little room on one side to stand
 * in its middle, it is made as wide as lets the place asked for lie where an even bend does no harm.
 */
export function windowAbout(at: number): { from: number; to: number } {
  const room = Math.min(at - FIRST_SHARE, LAST_SHARE - at)
  return movedWindow(at, room >= WIDTH / 2 ? WIDTH : Math.min(WIDTH, room / (0.5 - RIGHT_AT)))
}

/** Window of a width about a share of the burn, moved (not cut) to stay between the first and the last clean share. */
function movedWindow(at: number, width: number): { from: number; to: number } {
  const from = Math.min(Math.max(at - width / 2, FIRST_SHARE), LAST_SHARE - width)
  return { from, to: from + width }
}

/** Spread of a signal before a recorder rounded it to steps, kV, from the spread after. @source Sheppard's correction */
export const withoutSteps = (spreadKv: number, stepKv: number): number =>
  Math.sqrt(Math.max(0, spreadKv ** 2 - stepKv ** 2 / 12))

/** Spread below which residuals say nothing: the recorder's noise and steps. */
export const noiseFloor = ({ wave }: SparkLine): number =>
  Math.max(wave.noiseKv, wave.quantumKv / Math.sqrt(12), 1e-9)

function samplesOf(line: SparkLine, { from, to }: { from: number; to: number }): Window {
  const length = line.to - line.from
  const first = Math.ceil(line.from + from * length)
  const last = Math.min(Math.floor(line.from + to * length), line.wave.kv.length - 1)
  const y = line.wave.kv.subarray(first, last + 1)
  return { x: Float64Array.from(y, (_, i) => first + i), y }
}

/**
 * By how much a straight line through the window reads too high because the spark line bends, kV, and how sure that is.
 *
 * A bend spread out over the line (second derivative c) is missed by c (W^2/12 - d^2) / 2 at the distance d from the
 * window's centre; one that comes all at once in the centre, by W/8 of the change of slope. In the middle the lines'
 * own sharpness tells how much of each applies: that is taken off, and its uncertainty counts. Elsewhere nothing is
 * taken off and the size of the first counts, at least that in the centre.
 * @source JCGM 100:2008, 3.2.4 (correction of a recognised effect)
 */
function missedByLine(
  { changeOfSlope, sharpness }: WholeLine,
  { x, centre, length }: { x: Float64Array; centre: number; length: number },
): { kv: number; u: number } {
  const width = x.length
  const off = (x[0]! + x[width - 1]!) / 2 - centre
  const curvature = changeOfSlope / (SLOPES_APART * length)
  const inCentre = (curvature * width * width) / 24
  if (!sharpness)
    return { kv: 0, u: Math.max(Math.abs(inCentre), Math.abs((curvature * off * off) / 2 - inCentre)) }
  const atOnce = (changeOfSlope * width) / 8
  return {
    kv: inCentre + sharpness.share * (atOnce - inCentre),
    u: Math.abs(atOnce - inCentre) * sharpness.u,
  }
}
