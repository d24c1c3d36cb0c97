import { effectOf, effectPatterns, type Effect } from './effect-interval.ts'
import { effectShapes, steppedEffectShapes } from './effect-shapes.ts'
import type { IdleModel } from './idle-model.ts'
import type { ResponseShape } from './response-shapes.ts'
import { longestOf, patternsFor, scanWindow, stronger, surprisesOf, type WindowScan } from './scan-window.ts'
import type { SpeedGrid } from './speed-grid.ts'

/** A spray on one trace, times on the trace's own clock. */
export interface SprayTime {
  place: string
  fromS: number
  toS: number
}

/** Why a spray cannot count, whatever the speed did. */
export type Spoilt =
  | 'too-soon' // an earlier spray's response may still have been running
  | 'throttle' // the speed went where no spray sends it
  | 'early' // the change began before the spray
  | 'off-trace' // too little of the trace follows or precedes the spray

/** One spray as its trace shows it. */
export type ReadSpray = { scan: WindowScan } & ({ spoilt: Spoilt } | { spoilt: undefined; effect: Effect })

/** A trace made ready for scanning. */
export interface Bench {
  grid: SpeedGrid
  model: IdleModel
  shapes: readonly ResponseShape[]
  /** The events are ports closed or opened, whose change stays. */
  steps: boolean
  /** Steps after the start of a spray within which a response begins. */
  onsets: { from: number; to: number }
  /** 1 where the throttle was opened. */
  opened: Uint8Array
}

/** A response begins this long after the start of the spray, s: the agent has to reach the leak and the cylinders. */
export const ONSET_FROM_S = 0.2
export const ONSET_TO_S = 2
/** After the end of a spray the trace counts as sprayed for this long, s: latest onset, longest response, its aftermath. */
export const AFTERMATH_S = 7
/** How far before a spray a change that was already under way is looked for, s. */
const EARLY_S = 5
/** Onsets nearer than this to the start cannot be told from one at the start, s. */
const EARLY_MARGIN_S = 0.4
/** A change before the spray must outweigh the one after it by this much: the end of the first looks like the second. */
const EARLY_RATIO = 1.15

type PlacedSpray = SprayTime & { row: number }

/** Scores that chance reaches in 5 % of windows: the wider of all that is known, and that of the rearranged trace alone. */
export interface ChanceScores {
  chanceScore: number
  evenScore: number
}

export function readSprays(bench: Bench, times: readonly SprayTime[], chance: ChanceScores): ReadSpray[] {
  const { grid } = bench
  const sprays = times.map((s): PlacedSpray => ({
    ...s,
    row: Math.round((s.fromS - grid.firstS) / grid.stepS),
  }))
  const look = lookerAt(bench, sprays)
  const early = { from: -Math.round(EARLY_S / grid.stepS), to: -Math.round(EARLY_MARGIN_S / grid.stepS) }
  const scans = sprays.map((spray): Scanned => ({
    spray,
    scan: look.scan(spray, bench.onsets),
    before: look.scan(spray, early),
  }))
  return scans.map(({ spray, scan, before }): ReadSpray => {
    const spoilt = whySpoilt(bench, { spray, scan, before, scans, ...chance })
    if (spoilt) return { scan, spoilt }
    const effect = look.effect(spray, chance.chanceScore)
    return effect
      ? { scan, spoilt, effect: { ...effect, onset: afterStart(effect.onset, spray, grid) } }
      : { scan, spoilt: 'off-trace' }
  })
}

/** Onsets are counted from the row the spray's start was rounded to; its own start lies up to a step beside. Nearer than a step no onset is known. */
function afterStart(
  onset: Effect['onset'],
  spray: PlacedSpray,
  { firstS, stepS }: SpeedGrid,
): Effect['onset'] {
  const beside = spray.row - 0.5 - (spray.fromS - firstS) / stepS
  return {
    value: Math.max(0, onset.value + beside),
    low: Math.max(0, onset.low + beside - 1),
    high: Math.max(0, onset.high + beside + 1),
  }
}

/** Both looks at the rows after a spray, up to the next one: for a response, and for its size. */
function lookerAt({ grid, model, shapes, steps, onsets }: Bench, sprays: readonly PlacedSpray[]) {
  const prediction = model.without(undefined)
  const patterns = patternsFor(shapes, prediction)
  const shapesOfSize = steps ? steppedEffectShapes(grid.stepS) : effectShapes(grid.stepS)
  const sized = effectPatterns(shapesOfSize, prediction.lags)
  const surprisesAt = (
    spray: PlacedSpray,
    at: Bench['onsets'],
    over: readonly { height: Float64Array }[],
  ) => {
    const next = Math.min(grid.rpm.length, ...sprays.filter((s) => s.row > spray.row).map((s) => s.row + 1))
    const touched = { from: spray.row + at.from, to: spray.row + at.to + longestOf(over) }
    return surprisesOf(model, prediction, touched, (row) => row < next && isKnown({ grid, model }, row))
  }
  const rows = (spray: PlacedSpray, at: Bench['onsets']) => ({
    spray: spray.row,
    from: spray.row + at.from,
    to: spray.row + at.to,
  })
  return {
    scan: (spray: PlacedSpray, at: Bench['onsets']): WindowScan =>
      scanWindow(surprisesAt(spray, at, shapes), rows(spray, at), patterns, model.sigmaRpm),
    effect: (spray: PlacedSpray, bound: number): Effect | undefined =>
      effectOf(
        {
          surprises: surprisesAt(spray, onsets, shapesOfSize),
          onsets: rows(spray, onsets),
          patterns: sized,
          sigmaRpm: model.sigmaRpm,
        },
        bound,
      ),
  }
}

const isKnown = (bench: Pick<Bench, 'grid' | 'model'>, row: number): boolean => {
  for (let k = 0; k <= bench.model.order; k++) if (bench.grid.known[row - k] !== 1) return false
  return true
}

interface Scanned {
  spray: PlacedSpray
  scan: WindowScan
  before: WindowScan
}

function whySpoilt(
  bench: Bench,
  it: Scanned & ChanceScores & { scans: readonly Scanned[] },
): Spoilt | undefined {
  const { grid, onsets, model, opened } = bench
  const { spray, scan, before, scans, chanceScore, evenScore } = it
  const last = spray.row + onsets.to + Math.round(1 / grid.stepS)
  if (spray.row < model.order || last >= grid.rpm.length || stronger(scan).score === 0) return 'off-trace'
  if (opened.subarray(spray.row - model.order, last + 1).some((o) => o === 1)) return 'throttle'
  if (scans.some((other) => other.spray !== spray && runsInto(other, spray, chanceScore))) return 'too-soon'
  const score = stronger(scan).score
  // what began before the spray lies among the trace's own stretches and widens their bound: the even one is asked
  return score > evenScore && stronger(before).score > EARLY_RATIO * score ? 'early' : undefined
}

/** An earlier spray whose own window reaches into this one's, or whose response may still be running. */
function runsInto(earlier: Scanned, spray: PlacedSpray, chanceScore: number): boolean {
  const apartS = spray.fromS - earlier.spray.fromS
  if (apartS < 0) return false
  if (apartS < ONSET_TO_S) return true
  return earlier.spray.toS + AFTERMATH_S > spray.fromS && stronger(earlier.scan).score > chanceScore
}
