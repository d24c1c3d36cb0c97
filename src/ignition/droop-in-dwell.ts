import { median } from '../maths/median.ts'
import type { SampleRange } from './event.ts'
import { samplesIn, type Signal } from './signal.ts'

/** One event whose dwell is seen: samples of the record, and the rest before it, kV upright. */
export interface DwellSeen {
  restAt: number
  restKv: number
  dwellStart: number
  breakdown: number
}

/** What the level at the end of a dwell says of a droop: its inverse time constant, 1/s, and how well that is known (k = 1). */
export interface DwellDroop {
  perS: number
  u: number
}

/** The coil's ripple behind dwell start has mostly died away after this long, and is averaged over as long again. */
const RIPPLES_S = 0.3e-3
const LEVEL_S = 0.4e-3
/** The step of the current limit is looked for between levels of this length, this far apart. */
const SIDE_S = 0.2e-3
const STEP_S = 0.06e-3
/**
 * Current that is held makes no voltage: the level steps up by most of what charging had left. Charging alone, with any
 * droop, moves it by less than this share of its depth in so short a time.
 */
const LEAST_STEP_SHARE = 0.35
/** From the step on, this much is the ripple's; left out before the breakdown, its climb. */
const SETTLES_S = 0.15e-3
const CLIMB_S = 0.06e-3
const LEAST_HELD_S = 0.15e-3
/** Fewest events, and the share of them that must show the step. */
const LEAST_EVENTS = 6
const LEAST_SHARE = 0.6
/**
 * A driver does not hold the current quite still: it comes to its limit from below, so that nothing to 4 % of the charging
 * voltage is left; the middle, and half of the whole for its standard uncertainty. This project's judgement.
 */
const HELD_LEFT = 0.02
const HELD_WITHIN = 0.02

/**
 * Droop as the end of a dwell shows it. A driver that has reached its limit holds the current, and a coil whose current
 * stands still has no voltage: what the record shows there, above the rest before the dwell, is what the droop took from
 * the whole of the charging. That is ten times what is left after an event, where dwell and burn nearly cancel.
 *
 * @param meanKv  level that stands for zero
 * @returns       undefined where the dwells do not show a held current
 * @source        law of induction; a first-order high-pass
 */
export function droopInDwell(
  signal: Signal,
  events: readonly DwellSeen[],
  { meanKv, quantumKv }: { meanKv: number; quantumKv: number },
): DwellDroop | undefined {
  const held = events.flatMap((event) => heldOf(signal, event, meanKv))
  if (held.length < LEAST_EVENTS || held.length < LEAST_SHARE * events.length) return undefined
  const slopes = held.map(({ movedKv, areaKvS }) => -movedKv / areaKvS)
  const perS = median(slopes)!
  const off = median(slopes.map((s) => Math.abs(s - perS)))!
  const area = Math.abs(median(held.map((h) => h.areaKvS))!)
  const depth = median(held.map((h) => h.depthKv))!
  return {
    perS,
    u: Math.hypot(
      (SPREAD_OF_MEDIAN * off) / Math.sqrt(held.length),
      (HELD_WITHIN * depth) / area,
      quantumKv / Math.sqrt(12) / area,
    ),
  }
}

/** Standard error of a median of n normal values over their median absolute deviation, times the root of n. */
const SPREAD_OF_MEDIAN = 1.4826 * Math.sqrt(Math.PI / 2)

interface Held {
  /** Level while the current is held, above the rest and less what the coil still charges with, and the area under the event up to there. */
  movedKv: number
  areaKvS: number
  /** How far charging stands below the rest, kV. */
  depthKv: number
}

function heldOf({ data, sign, sampleS }: Signal, event: DwellSeen, meanKv: number): Held[] {
  const { restAt, restKv, dwellStart, breakdown } = event
  const to = Math.floor(breakdown - CLIMB_S / sampleS)
  const from = Math.ceil(dwellStart + RIPPLES_S / sampleS)
  const level = ({ from: a, to: b }: SampleRange): number => {
    let sum = 0
    for (let i = a; i < b; i++) sum += data[i]!
    return (sign * sum) / Math.max(1, b - a) - restKv
  }
  const span = samplesIn(LEVEL_S, sampleS)
  const side = samplesIn(SIDE_S, sampleS)
  const apart = samplesIn(STEP_S, sampleS)
  const settles = samplesIn(SETTLES_S, sampleS)
  if (to - from < span + settles + LEAST_HELD_S / sampleS) return []
  const depthKv = -level({ from, to: from + span })
  if (!(depthKv > 0)) return []
  let best = { at: 0, step: 0 }
  let before = level({ from: from + span - side, to: from + span }) * side
  let after = level({ from: from + span + apart, to: from + span + apart + side }) * side
  for (let at = from + span; at + apart + side <= to; at++) {
    const step = (after - before) / side
    if (step > best.step) best = { at, step }
    before += sign * (data[at]! - data[at - side]!)
    after += sign * (data[at + apart + side]! - data[at + apart]!)
  }
  const heldFrom = best.at + apart + settles
  if (best.step < LEAST_STEP_SHARE * depthKv || to - heldFrom < LEAST_HELD_S / sampleS) return []
  const middle = (heldFrom + to) / 2
  let areaKvS = 0
  for (let i = Math.round(restAt); i < middle; i++) areaKvS += (sign * data[i]! - meanKv) * sampleS
  return areaKvS < 0
    ? [{ movedKv: level({ from: heldFrom, to }) + HELD_LEFT * depthKv, areaKvS, depthKv }]
    : []
}
