import { leastSquaresLine } from '../../maths/least-squares-line.ts'
import { mean } from '../../maths/mean-sd.ts'
import { makeRandom } from '../../maths/random.ts'
import { coverageFactor } from '../../maths/student-t.ts'
import type { Interval } from '../../units/measured.ts'
import type { SpeedGrid } from './speed-grid.ts'

/** A port closed for a while on one trace, on the trace's own clock; `quiet` tells rows that nothing else disturbed. */
export interface ClosedSpan {
  grid: SpeedGrid
  quiet: Uint8Array
  /** Undisturbed idle before it was closed, while it was closed, and after it was opened, s; the last where it was. */
  before: Span
  during: Span
  after: Span | undefined
}
interface Span {
  fromS: number
  toS: number
}

export interface SwingChange {
  /** Two-sided, not corrected. */
  p: number
  /** Change of the swing's root mean square with the port closed against open, %, 95 %. */
  change: Interval<'%'>
  blocks: number
}

/** A block is long enough for one turn of a slow hunt and short enough that many fit beside a change, s. */
const BLOCK_S = 4
/** Idle this near to a change is left out: the hand that closes it, and the idle that settles, s. */
const SETTLES_S = 2.5
/** Idle further away than this tells nothing more of the change, s. */
const REACH_S = 48
const LEAST_BLOCKS = 3
const SHUFFLES = 4999
const SEED = 40112
const COVERAGE = 0.95
/**
 * Part of a swing by which its blocks can differ from it whatever their number, as a log: noise that does not swing, and
 * slow swings cut by the block. Half width, 95 %. From simulated idles other than those of the bench.
 */
const SHAPE_SHARE = 0.08

/**
 * Whether an idle swings less, or more, with a port closed: mean log of the root mean square of its detrended blocks,
 * closed against open, and how often blocks dealt out anew differ as much. Blocks beside each other are alike; the
 * difference is shrunk by what their likeness leaves of their number.
 *
 * @returns undefined with fewer than three blocks on either side
 * @source  permutation test: Hollander and Wolfe, Nonparametric Statistical Methods, ch. 4 (principle); fewer
 *          independent blocks, (1 - r) / (1 + r): Bayley and Hammersley 1946, J. R. Stat. Soc. Suppl. 8, 184; from memory
 */
export function swingChange(spans: readonly ClosedSpan[]): SwingChange | undefined {
  const runs = spans.map((span) => ({
    open: [
      blocksIn(span, { fromS: Math.max(span.before.fromS, span.before.toS - REACH_S), toS: span.before.toS }),
      ...(span.after
        ? [blocksIn(span, { ...span.after, toS: Math.min(span.after.toS, span.after.fromS + REACH_S) })]
        : []),
    ],
    closed: [blocksIn(span, { ...span.during, toS: Math.min(span.during.toS, span.during.fromS + REACH_S) })],
  }))
  const usable = runs.filter(
    ({ open, closed }) => open.flat().length >= LEAST_BLOCKS && closed.flat().length >= LEAST_BLOCKS,
  )
  if (usable.length === 0) return undefined
  const strata = usable.map(({ open, closed }) => ({ open: open.flat(), closed: closed.flat() }))
  const likeness = likenessOf(usable.flatMap(({ open, closed }) => [...open, ...closed]))
  const value = differenceOf(strata)
  const random = makeRandom(SEED)
  let atLeast = 1
  for (let k = 0; k < SHUFFLES; k++) {
    const dealt = differenceOf(strata.map((s) => dealtAnew(s, random)))
    if (Math.abs(dealt) >= Math.abs(value) / Math.sqrt(likeness) - 1e-12) atLeast++
  }
  const half = Math.hypot(halfWidth(strata) * Math.sqrt(likeness), SHAPE_SHARE)
  return {
    p: atLeast / (SHUFFLES + 1),
    change: { value: percent(value), low: percent(value - half), high: percent(value + half), unit: '%' },
    blocks: strata.reduce((n, s) => n + s.open.length + s.closed.length, 0),
  }
}

const percent = (log: number): number => 100 * (Math.exp(log) - 1)

/** Log root mean square of every whole undisturbed block in a span, in order. */
function blocksIn({ grid, quiet }: ClosedSpan, span: Span): number[] {
  const rows = Math.round(BLOCK_S / grid.stepS)
  const first = Math.ceil((span.fromS - grid.firstS) / grid.stepS)
  const last = Math.floor((span.toS - grid.firstS) / grid.stepS)
  const times = Float64Array.from({ length: rows }, (_, i) => i)
  const found: number[] = []
  for (let row = Math.max(0, first); row + rows <= Math.min(last, grid.rpm.length);) {
    if (quiet.subarray(row, row + rows).includes(0)) {
      row++
      continue
    }
    const rpm = grid.rpm.slice(row, row + rows)
    const line = leastSquaresLine(times, rpm)
    const squares = rpm.reduce(
      (sum, v, i) => sum + (v - (line ? line.intercept + line.slope * i : v)) ** 2,
      0,
    )
    // A reading that never moves has no swing to take the log of: its own step stands for it.
    found.push(Math.log(Math.sqrt(squares / rows) + LEAST_SWING_RPM))
    row += rows
  }
  return found
}
/** Below this a swing is the display's own step, rpm. */
const LEAST_SWING_RPM = 0.5

interface Sides {
  open: readonly number[]
  closed: readonly number[]
}

/** Closed less open, traces weighted by what their blocks are worth. */
function differenceOf(strata: readonly Sides[]): number {
  let [sum, weights] = [0, 0]
  for (const { open, closed } of strata) {
    const weight = (open.length * closed.length) / (open.length + closed.length)
    sum += weight * (mean(closed)! - mean(open)!)
    weights += weight
  }
  return sum / weights
}

function dealtAnew({ open, closed }: Sides, random: ReturnType<typeof makeRandom>): Sides {
  const pool = [...open, ...closed]
  for (let i = pool.length - 1; i > 0; i--) {
    const k = random.integer(i + 1)
    ;[pool[i], pool[k]] = [pool[k]!, pool[i]!]
  }
  return { open: pool.slice(0, open.length), closed: pool.slice(open.length) }
}

/** What a run of blocks that are alike to their neighbours is too sure by; 1 where they are not. */
function likenessOf(runs: readonly (readonly number[])[]): number {
  let [products, squares, blocks] = [0, 0, 0]
  for (const run of runs) {
    if (run.length < 2) continue
    const off = run.map((v) => v - mean(run)!)
    for (let i = 1; i < off.length; i++) products += off[i]! * off[i - 1]!
    squares += off.reduce((sum, v) => sum + v * v, 0)
    blocks += run.length
  }
  const r = squares > 0 ? products / squares : 0
  // A mean taken from few blocks makes neighbours look less alike than they are.
  const kept = Math.min(
    MOST_ALIKE,
    Math.max(LEAST_ALIKE, r + (1 + 3 * r) / Math.max(1, blocks / runs.length)),
  )
  return (1 + kept) / (1 - kept)
}
const MOST_ALIKE = 0.8
/** A dozen blocks cannot show that they are not alike: so much is always taken. From simulated idles other than those of the bench. */
const LEAST_ALIKE = 0.2

/** Half width of the 95 % interval of the difference, blocks taken as independent. */
function halfWidth(strata: readonly Sides[]): number {
  let [squares, freedom, variance, weights] = [0, 0, 0, 0]
  for (const { open, closed } of strata) {
    for (const side of [open, closed]) squares += side.reduce((sum, v) => sum + (v - mean(side)!) ** 2, 0)
    freedom += open.length + closed.length - 2
    const weight = (open.length * closed.length) / (open.length + closed.length)
    variance += weight
    weights += weight
  }
  return (coverageFactor(COVERAGE, freedom) * Math.sqrt((squares / freedom) * variance)) / weights
}

/** The idle beside closing and opening that nothing else touched: up to the nearest other change. */
export function spansOf(
  closedS: number,
  openedS: number | undefined,
  trace: { grid: SpeedGrid; quiet: Uint8Array; changesS: readonly number[] },
): ClosedSpan {
  const { grid, quiet, changesS } = trace
  const startS = grid.firstS
  const endS = grid.firstS + grid.stepS * grid.rpm.length
  const last = (untilS: number) =>
    Math.max(startS, ...changesS.filter((s) => s < untilS).map((s) => s + SETTLES_S))
  const next = (fromS: number) =>
    Math.min(endS, ...changesS.filter((s) => s > fromS).map((s) => s - SETTLES_S))
  return {
    grid,
    quiet,
    before: { fromS: last(closedS), toS: closedS - SETTLES_S },
    during: { fromS: closedS + SETTLES_S, toS: next(closedS) },
    after: openedS === undefined ? undefined : { fromS: openedS + SETTLES_S, toS: next(openedS) },
  }
}
