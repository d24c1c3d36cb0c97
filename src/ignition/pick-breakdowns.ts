import { median } from '../maths/median.ts'
import { middleOf, type Blocks } from './blocks.ts'
import { breakdownCurve, typicalClimb } from './breakdown-curve.ts'
import { quietLevel } from './quiet-level.ts'
import { roughEnd } from './rough-end.ts'

/** A breakdown found in the blocks: where, and what makes it one. Indices of blocks; levels in kV, upright. */
export interface Pick {
  /** Block in which the firing line peaks; of a top cut flat by the recorder the first and the last. */
  top: number
  peak: number
  /** Block in which the signal has fallen off the spark line; undefined without one, or where the record ends first. */
  end: number | undefined
  /** The record ends before the spark line does. */
  cut: boolean
  /** A spark line follows the breakdown. */
  line: boolean
  peakKv: number
  /** Level before the climb, and of the spark line early in its burn; recorded kV, not above rest. */
  beforeKv: number
  lineKv: number
  /** Local resting level. */
  quietKv: number
  /** Height of the climb, and the most of it within two blocks. */
  climbKv: number
  sharpKv: number
  /** The signal lay on the other side of rest shortly before, as it does during dwell. */
  charged: boolean
  /** Steepest fall that ends the line, as a share of the climb: small for a ring, near or above 1 for another breakdown. */
  sharpEnd: number
  /** Blocks at which the arc broke down anew within the burn. */
  restrikes: readonly number[]
}

/** A climb below this share of the typical one is noise, ripple or ring. */
const LEAST_CLIMB_SHARE = 0.04
/** ... or below this many times the noise, or this many steps of the recorder. */
const LEAST_CLIMB_NOISES = 8
const LEAST_CLIMB_STEPS = 2.5
/** A spark line steps up, and sharply, by at least this share of the record's usual step; crosstalk, hump and ring do not. */
const LEAST_STEP_SHARE = 0.33
/** Without a spark line a breakdown must stand this high beside the typical climb. */
const LEAST_OPEN_SHARE = 0.3
/** The wave behind a discharge that found no path swings below rest by at least this share of its height. */
const OPEN_BACKSWING = 0.12
/** Dwell shows where the level before is this share of the line's height below rest. */
const LEAST_CHARGE_SHARE = 0.15
/** Spacing of the points at which the resting level is taken, and the reach of each, s. */
const QUIET_EVERY_S = 0.1
/** A breakdown tops the early level of its own line by about nothing at the least; a share for noise. */
const TOPS_OWN_LINE = 0.8
/** The current limit comes into play this long before firing at the most, s. */
const OUTSHONE_WITHIN_S = 2e-3
/** A coil rings this long after a spark, and climbs in two blocks at most by this share of the height the spark had. */
const RINGS_FOR_S = 1.5e-3
const RING_CLIMB = 1.25
/** Shortest line that does not begin with a collapse. */
const LEAST_LINE_S = 0.25e-3
/** Longest climb from first step to peak, s: a quarter cycle of a slow coil. */
const LONGEST_CLIMB_S = 0.3e-3

/** All breakdowns of one upright channel in order of time. */
export function pickBreakdowns(
  blocks: Blocks,
  { noiseKv, quantumKv }: { noiseKv: number; quantumKv: number },
): Pick[] {
  const climb = breakdownCurve(blocks)
  const typical = typicalClimb(climb, blocks.blockS)
  const least = Math.max(
    LEAST_CLIMB_SHARE * typical,
    LEAST_CLIMB_NOISES * noiseKv,
    LEAST_CLIMB_STEPS * quantumKv,
  )
  const quiet = quietLevels(blocks)
  const candidates: Pick[] = []
  for (let k = 1; k < climb.length; k++) {
    if (climb[k]! < least) continue
    const candidate = describe(blocks, { at: k, climb, quietKv: quiet(k), leastKv: least })
    candidates.push(candidate)
    k = Math.max(k, candidate.peak)
  }
  return keepBreakdowns(candidates, { typical, blocks })
}

/** Resting level near a block, linear between points a tenth of a second apart. */
function quietLevels(blocks: Blocks): (k: number) => number {
  const step = Math.max(1, Math.round(QUIET_EVERY_S / blocks.blockS))
  const points: number[] = []
  for (let at = 0; at < blocks.mean.length + step; at += step) {
    const level = quietLevel(blocks.mean, { from: at - step, to: at + step })
    points.push(level ?? points.at(-1) ?? 0)
  }
  return (k) => {
    const at = Math.min(k / step, points.length - 1)
    const low = points[Math.floor(at)]!
    const high = points[Math.min(Math.floor(at) + 1, points.length - 1)]!
    return low + (at - Math.floor(at)) * (high - low)
  }
}

/** Looks at what stands before and after a climb that begins at block `at`. */
function describe(
  blocks: Blocks,
  { at, climb, quietKv, leastKv }: { at: number; climb: Float32Array; quietKv: number; leastKv: number },
): Pick {
  const { max, mean, min, blockS } = blocks
  const top = climbTop(blocks, at)
  const peak = flatTop(blocks, top)
  const span = (s: number): number => Math.max(1, Math.round(s / blockS))
  const beforeKv = middleOf(mean, at - span(0.14e-3), Math.max(1, at - span(0.02e-3))) ?? quietKv
  const lineKv = middleOf(mean, peak + span(0.06e-3), peak + span(0.26e-3)) ?? quietKv
  const found = roughEnd(blocks, { peak, quietKv, leastKv })
  const line = holdsLine(blocks, { peak, end: found.end, quietKv }) && lineKv > quietKv
  const heightKv = (line ? lineKv : max[peak]! * OPEN_BACKSWING) - quietKv
  return {
    top,
    peak,
    end: found.end,
    cut: found.end === undefined,
    line,
    peakKv: max[peak]!,
    beforeKv,
    lineKv,
    quietKv,
    climbKv: max[peak]! - Math.min(min[at - 1]!, beforeKv),
    sharpKv: climb.subarray(at, top + 1).reduce((a, b) => Math.max(a, b), 0),
    sharpEnd: found.steepestFall / (max[peak]! - min[at - 1]!),
    charged: isCharged(blocks, { at, quietKv, heightKv }),
    restrikes: line ? found.restrikes : [],
  }
}

/** A half-wave without a path is as wide as a short line, but its top is round and nothing stays level after it. */
function holdsLine(
  { max, mean, blockS }: Blocks,
  { peak, end, quietKv }: { peak: number; end: number | undefined; quietKv: number },
): boolean {
  const soon = mean[Math.min(peak + Math.max(1, Math.round(0.04e-3 / blockS)), mean.length - 1)]!
  const collapsed = soon - quietKv < 0.7 * (max[peak]! - quietKv)
  return collapsed || ((end ?? mean.length) - peak) * blockS > LEAST_LINE_S
}

/** Last block of a top that the recorder's limit cut flat; the block itself where the top is pointed, or flat like a line. */
function flatTop({ max, min, blockS }: Blocks, top: number): number {
  const last = top + Math.round(LEAST_LINE_S / blockS)
  let k = top
  while (k + 1 < max.length && k <= last && max[k + 1]! >= max[top]! && min[k + 1]! > 0.9 * max[top]!) k++
  return k > last ? top : k
}

/** Dwell stands against the line by a share of its height until the current limit, up to a millisecond before firing. */
function isCharged(
  { mean, blockS }: Blocks,
  { at, quietKv, heightKv }: { at: number; quietKv: number; heightKv: number },
): boolean {
  const level = middleOf(mean, at - Math.round(2.5e-3 / blockS), at - Math.round(1.2e-3 / blockS))
  return level !== undefined && quietKv - level > LEAST_CHARGE_SHARE * heightKv
}

/** Follows a climb to its top. */
function climbTop({ max, blockS }: Blocks, at: number): number {
  const last = Math.min(max.length - 1, at + Math.round(LONGEST_CLIMB_S / blockS))
  let peak = at
  while (peak < last && max[peak + 1]! > max[peak]!) peak++
  return peak
}

/** Keeps what has the shape of a breakdown, each burn once. */
function keepBreakdowns(
  candidates: readonly Pick[],
  { typical, blocks }: { typical: number; blocks: Blocks },
): Pick[] {
  const steps = candidates
    .filter((c) => c.line && c.climbKv > 0.25 * typical)
    .map((c) => c.lineKv - c.beforeKv)
  const usualStep = median(steps.filter((s) => s > 0)) ?? 0
  const shaped = candidates.filter((c) => isSpark(c, usualStep) || isOpen(c, { typical, blocks }))
  const reach = Math.round(OUTSHONE_WITHIN_S / blocks.blockS)
  const kept: Pick[] = []
  shaped.forEach((c, i) => {
    const last = kept.at(-1)
    if ((last && isWithin(c, last, blocks.blockS)) || outshone(c, shaped.slice(i + 1, i + 6), reach)) return
    kept.push(c)
  })
  return kept
}

/** Part of the event before: its burn, or the ring behind it, whose climbs are no higher than the line was. */
function isWithin(c: Pick, last: Pick, blockS: number): boolean {
  if (last.cut) return true
  const since = (c.peak - (last.end ?? last.peak)) * blockS
  if (since < 0.1e-3) return true
  const heightKv = (last.line ? last.lineKv : last.peakKv) - last.quietKv
  return since < RINGS_FOR_S && c.sharpKv < RING_CLIMB * heightKv
}

/** A sharper climb soon after, to a line this one never reached: this was the current limit, that the breakdown. */
function outshone(c: Pick, later: readonly Pick[], reach: number): boolean {
  return later.some(
    (n) =>
      n.peak - c.peak < reach &&
      n.line &&
      n.sharpKv > c.sharpKv &&
      c.peakKv - c.quietKv < TOPS_OWN_LINE * (n.lineKv - n.quietKv),
  )
}

function isSpark(c: Pick, usualStep: number): boolean {
  if (!c.line || usualStep === 0) return false
  const step = c.lineKv - c.beforeKv
  const least = LEAST_STEP_SHARE * usualStep
  // A breakdown tops its own line; the current-limit hump just before one does not.
  if (c.peakKv - c.quietKv < TOPS_OWN_LINE * (c.lineKv - c.quietKv)) return false
  return step > least && c.lineKv - c.quietKv > 0.2 * usualStep && c.sharpKv > Math.max(least, 0.7 * step)
}

function isOpen(c: Pick, { typical, blocks }: { typical: number; blocks: Blocks }): boolean {
  const height = c.peakKv - c.quietKv
  if (height < LEAST_OPEN_SHARE * typical || Math.abs(c.beforeKv - c.quietKv) > 0.35 * height) return false
  let lowest = Infinity
  for (let k = c.peak; k < Math.min(blocks.min.length, c.peak + Math.round(0.6e-3 / blocks.blockS)); k++) {
    lowest = Math.min(lowest, blocks.min[k]!)
  }
  return c.quietKv - lowest > OPEN_BACKSWING * height
}
