import { K95 } from '../maths/normal.ts'
import { MAD_TO_SD, mad } from '../maths/mad.ts'
import { median } from '../maths/median.ts'
import { robustLine } from '../maths/robust-line.ts'
import { blockMeans } from './block-means.ts'

/** Two successive samples of one climb: the level of the first and what the second gained, kV. */
export interface ClimbStep {
  fromKv: number
  gainKv: number
}

/** Gain of one sampling interval against the level it starts from, over the upper part of a capture's climbs. */
export interface ClimbGain {
  /** Middle of the levels seen, and the gain there, kV. */
  middleKv: number
  gainKv: number
  /** Change of the gain with the level, and its standard uncertainty, kV per kV. */
  slope: number
  slopeU: number
  /** Standard uncertainty of `gainKv`, kV. */
  gainU: number
  /** Highest level seen, kV: beyond it the line is carried on. */
  toKv: number
  /** False where the steps are too few, or too alike in level, to tell how the gain changes with it. */
  slopeSeen: boolean
}

/** Fewest steps through which a line is drawn. */
const LEAST_STEPS = 8
/** A climb starts slowly; above this share of the highest level seen its slope changes evenly. */
const UPPER_SHARE = 0.35
/** With fewer steps above that share than this, nothing tells how the slope changes. */
const LEAST_UPPER = 8
/** The line is drawn through at most this many means of neighbouring steps. */
const MOST_POINTS = 80

/**
 * Draws the gain line through the steps of many climbs. One coil climbs along the same curve every time and only
 * breaks off at another level, so that events that went on show what an event that broke down would have gained.
 *
 * @returns undefined with fewer than 8 steps
 */
export function climbGain(steps: readonly ClimbStep[]): ClimbGain | undefined {
  if (steps.length < LEAST_STEPS) return undefined
  const rising = steps.toSorted((a, b) => a.fromKv - b.fromKv)
  const toKv = rising.at(-1)!.fromKv
  const top = Math.max(...rising.map((s) => s.fromKv + s.gainKv))
  const upper = rising.filter((s) => s.fromKv >= UPPER_SHARE * top)
  if (upper.length < LEAST_UPPER) return levelGain(rising, toKv)
  const points = blockMeans({ x: upper.map((s) => s.fromKv), y: upper.map((s) => s.gainKv) }, MOST_POINTS)
  const line = robustLine(points.x, points.y)
  if (!line) return levelGain(upper, toKv)
  const middleKv = median(points.x)!
  const left = points.y.map((y, i) => y - line.intercept - line.slope * points.x[i]!)
  return {
    middleKv,
    toKv,
    slopeSeen: true,
    gainKv: line.intercept + line.slope * middleKv,
    slope: line.slope,
    slopeU: (line.slopeHigh - line.slopeLow) / (2 * K95),
    gainU: (MAD_TO_SD * mad(left)!) / Math.sqrt(left.length),
  }
}

/** The gain of the highest steps alone, where they are too few or too alike in level for a line. */
function levelGain(rising: readonly ClimbStep[], toKv: number): ClimbGain {
  const highest = rising.slice(-LEAST_STEPS)
  const gains = highest.map((s) => s.gainKv)
  return {
    middleKv: median(highest.map((s) => s.fromKv))!,
    gainKv: median(gains)!,
    slope: 0,
    slopeU: 0,
    toKv,
    slopeSeen: false,
    gainU: (MAD_TO_SD * mad(gains)!) / Math.sqrt(gains.length),
  }
}

/** The gain never falls below this share of that in the middle: a line carried far on must not turn a climb round. */
const LEAST_SHARE = 0.3

/** What the climb gains in one interval from a level on, kV, and by how much that changes beyond the levels seen. */
export function gainAt(gain: ClimbGain, fromKv: number): { kv: number; beyondKv: number } {
  // Beyond the highest level seen nothing shows whether the slope goes on changing: half of the change.
  const beyondKv = gain.slope * Math.max(0, fromKv - gain.toKv)
  const line = gain.gainKv + gain.slope * (Math.min(fromKv, gain.toKv) - gain.middleKv) + beyondKv / 2
  return { kv: Math.max(line, LEAST_SHARE * gain.gainKv), beyondKv }
}
