import { median } from '../../maths/median.ts'
import { quantile } from '../../maths/quantile.ts'
import { makeRandom } from '../../maths/random.ts'
import { fitIdleModel } from './idle-model.ts'
import {
  AFTERMATH_S,
  ONSET_FROM_S,
  ONSET_TO_S,
  readSprays,
  type Bench,
  type ReadSpray,
  type SprayTime,
} from './read-sprays.ts'
import { responseShapes, steppedShapes } from './response-shapes.ts'
import { longestOf, patternsFor, scanWindow, stronger, surprisesOf, type WindowScan } from './scan-window.ts'
import { SLOWEST_STEP_S, stepFor, toGrid, type SpeedGrid, type SpeedSeries } from './speed-grid.ts'

/** All that a trace says about its sprays, before they are judged. */
export interface ReadTrace {
  stepS: number
  grid: SpeedGrid
  /** 1 where a row was read and the throttle left alone. */
  calm: Uint8Array
  /** Length of one stretch, s. */
  stretchS: number
  sigmaRpm: number
  /** Score that chance reaches in 5 % of windows: the wider of the trace's own stretches and the rearranged ones. */
  chanceScore: number
  /** The same scan over every unsprayed stretch, none overlapping another. */
  stretches: readonly WindowScan[]
  /** The same scan over stretches put together from the surprises of the unsprayed rows in chance order. */
  shuffled: readonly WindowScan[]
  sprays: readonly ReadSpray[]
}
export type UnreadTrace = { why: 'too-slow' | 'too-short' }

/** Quantile of the largest chance score that bounds the 95 % interval of a change. */
const COVERAGE = 0.95
/** Undisturbed rows asked of a stretch beyond its last onset, s. */
const STRETCH_TAIL_S = 0.8
/** Rows around a throttle opening that are not idle either, s. */
const THROTTLE_MARGIN_S = 2
const SHUFFLES = 1999
const SEED = 20260304

/**
 * Scans the sprays of one trace, and the unsprayed rest in the same way.
 *
 * @param throttleRpm  change of speed beyond the idle's own range that counts as a throttle opening
 * @param stepsS       instants at which the idle may have stepped to another level, ports closed or opened; those among
 *                     the events are looked at as steps, and the whole trace with them
 */
export function readTrace(
  series: SpeedSeries,
  sprays: readonly SprayTime[],
  throttleRpm: number,
  { stepsS = [], steps = false }: { stepsS?: readonly number[]; steps?: boolean } = {},
): ReadTrace | UnreadTrace {
  const stepS = stepFor(series)
  if (stepS === undefined) return { why: 'too-short' }
  if (stepS > SLOWEST_STEP_S) return { why: 'too-slow' }
  const grid = toGrid(series, stepS)
  const opened = throttleRows(grid, throttleRpm, stepsS)
  const quiet = Uint8Array.from(grid.known, (k, i) =>
    k && !opened[i] && !isSprayed(grid, sprays, i) ? 1 : 0,
  )
  const model = fitIdleModel(grid, quiet)
  if (!model) return { why: 'too-short' }
  const shapes = steps ? steppedShapes(stepS) : responseShapes(stepS)
  const onsets = { from: Math.ceil(ONSET_FROM_S / stepS), to: Math.max(1, Math.round(ONSET_TO_S / stepS)) }
  const bench: Bench = { grid, model, shapes, steps, onsets, opened }
  const stretches = scanStretches(bench, Math.max(0, ...sprays.map((s) => s.toS - s.fromS)))
  const shuffled = scanShuffled(bench)
  const evenScore = chanceBound(shuffled)
  const chanceScore = Math.max(evenScore, chanceBound(stretches))
  return {
    stepS,
    grid,
    calm: Uint8Array.from(grid.known, (k, i) => (k && !opened[i] ? 1 : 0)),
    sigmaRpm: model.sigmaRpm,
    stretchS: (onsets.to - onsets.from + 1) * stepS,
    chanceScore,
    stretches,
    shuffled,
    sprays: readSprays(bench, sprays, { chanceScore, evenScore }),
  }
}

const chanceBound = (scans: readonly WindowScan[]): number =>
  quantile(
    scans.map((s) => stronger(s).score),
    COVERAGE,
  ) ?? 0

function isSprayed(grid: SpeedGrid, sprays: readonly SprayTime[], row: number): boolean {
  const timeS = grid.firstS + row * grid.stepS
  return sprays.some((s) => timeS > s.fromS - grid.stepS && timeS < s.toS + AFTERMATH_S)
}

/** A stretch between two steps shorter than this has no middle of its own, s. */
const LEAST_LEVEL_S = 8

/** After a step the idle control takes this long to bring the speed back, s; only more than several times a throttle's worth is one. */
const SETTLES_S = 8
const SETTLING_TIMES = 4

/** 1 where the throttle was opened, level by level: a port that is closed may leave the idle elsewhere for good. */
function throttleRows(grid: SpeedGrid, throttleRpm: number, stepsS: readonly number[]): Uint8Array {
  const ends = [...stepsS]
    .map((s) => Math.round((s - grid.firstS) / grid.stepS))
    .filter((row) => row > 0 && row < grid.rpm.length)
    .sort((a, b) => a - b)
  const opened = new Uint8Array(grid.rpm.length)
  let from = 0
  for (const to of [...ends, grid.rpm.length]) {
    if (to - from < LEAST_LEVEL_S / grid.stepS && ends.length > 0) {
      from = to
      continue
    }
    const level = throttleRowsOf(
      { ...grid, rpm: grid.rpm.subarray(from, to), known: grid.known.subarray(from, to) },
      { throttleRpm, settlesS: from === 0 ? 0 : SETTLES_S },
    )
    level.forEach((o, i) => {
      if (o) opened[from + i] = 1
    })
    from = to
  }
  return opened
}

/** 1 where the speed is further from its middle than the idle's own range and a throttle's worth. */
function throttleRowsOf(
  grid: SpeedGrid,
  { throttleRpm, settlesS }: { throttleRpm: number; settlesS: number },
): Uint8Array {
  const known = grid.rpm.filter((_, i) => grid.known[i] === 1)
  if (known.length === 0) return new Uint8Array(grid.rpm.length)
  const middle = median(known)!
  const range =
    1.5 *
    quantile(
      known.map((v) => Math.abs(v - middle)),
      0.75,
    )!
  const margin = Math.round(THROTTLE_MARGIN_S / grid.stepS)
  const opened = new Uint8Array(grid.rpm.length)
  grid.rpm.forEach((v, i) => {
    const most = i * grid.stepS < settlesS ? SETTLING_TIMES * throttleRpm : throttleRpm
    if (grid.known[i] === 1 && Math.abs(v - middle) > range + most)
      opened.fill(1, Math.max(0, i - margin), i + margin + 1)
  })
  return opened
}

/**
 * Every stretch is scanned with a model fitted without all the rows a spray there would have taken from the fit: only
 * then is it alike to the sprays. Rows of a longer response left in would make its surprises too small, and the
 * sprays' rank too high.
 */
function scanStretches(bench: Bench, sprayS: number): WindowScan[] {
  const { model, grid, shapes, onsets } = bench
  const width = onsets.to - onsets.from + 1
  const tail = Math.round(STRETCH_TAIL_S / grid.stepS)
  const taken = Math.round((sprayS + AFTERMATH_S) / grid.stepS)
  const found: WindowScan[] = []
  let first = model.order
  while (first + width + tail <= grid.rpm.length) {
    if (!model.usable.subarray(first, first + width + tail).every((u) => u === 1)) {
      first++
      continue
    }
    const prediction = model.without({ from: first - onsets.from, to: first - onsets.from + taken })
    const surprises = surprisesOf(
      model,
      prediction,
      { from: first, to: first + width - 1 + longestOf(shapes) },
      (row) => model.usable[row] === 1,
    )
    found.push(
      scanWindow(
        surprises,
        { spray: first - onsets.from, from: first, to: first + width - 1 },
        patternsFor(shapes, prediction),
        model.sigmaRpm,
      ),
    )
    first += width
  }
  return found
}

function scanShuffled(bench: Bench): WindowScan[] {
  const { model, shapes, onsets } = bench
  const random = makeRandom(SEED)
  const patterns = patternsFor(shapes, model.without(undefined))
  const rpm = new Float64Array(onsets.to + longestOf(shapes) + 1)
  return Array.from({ length: SHUFFLES }, () => {
    for (let i = 0; i < rpm.length; i++)
      rpm[i] = model.surprisesRpm[random.integer(model.surprisesRpm.length)]!
    return scanWindow({ first: 0, rpm }, { spray: 0, ...onsets }, patterns, model.sigmaRpm)
  })
}
