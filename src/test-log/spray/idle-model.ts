import { MAD_TO_SD } from '../../maths/mad.ts'
import { median } from '../../maths/median.ts'
import { solveLinear } from '../../maths/solve-linear.ts'
import type { SpeedGrid } from './speed-grid.ts'

/**
 * What an undisturbed idle does next, from what it just did: a linear prediction (autoregression) over about two
 * seconds, fitted to the unsprayed rows of the trace. It follows drift, a periodic swing and the push of the idle
 * control alike, so that what it leaves (the surprises) is close to even noise, and neighbouring rows are independent.
 *
 * @source Box and Jenkins, Time Series Analysis, ch. 7 (least-squares autoregression); from memory
 */
export interface IdleModel {
  order: number
  /** Robust standard deviation of the surprises, rpm. */
  sigmaRpm: number
  /** Surprises of the rows that were fitted, rpm, widened for the coefficients that were fitted to them. */
  surprisesRpm: Float64Array
  /** 1 where a row and the rows it is predicted from are all undisturbed. */
  usable: Uint8Array
  /** Coefficients: constant first, then one a lag; fitted without the rows that touch [from, to). */
  without: (rows: { from: number; to: number } | undefined) => Float64Array
  /** Speed of a row less its prediction, rpm. */
  surprise: (coefficients: Float64Array, row: number) => number
}

/** Memory of the prediction, s: with five steps a second ten lags, enough for a swing of 0.2 Hz in noise. */
const MEMORY_S = 2
const MIN_ORDER = 3
/** Keeps the fit steady where lags are nearly alike; a thousandth of the speed's variance moves no figure that matters. */
const RIDGE = 0.001
/** Puts the constant on the scale of the speeds. */
const CONSTANT = 10
/** Rows a coefficient; fewer cannot be fitted. */
const ROWS_PER_COEFFICIENT = 4

/** Lags used on steps of `stepS`. */
export const orderFor = (stepS: number): number => Math.max(MIN_ORDER, Math.round(MEMORY_S / stepS))

/**
 * @param quiet  1 for rows that no spray and no throttle touched, shape as grid.rpm
 * @returns      undefined where too few rows are quiet to fit it
 */
export function fitIdleModel(grid: SpeedGrid, quiet: Uint8Array): IdleModel | undefined {
  const order = orderFor(grid.stepS)
  const usable = usableRows(quiet, order)
  const rows = usable.reduce((a, v) => a + v, 0)
  if (rows < ROWS_PER_COEFFICIENT * (order + 1)) return undefined
  const centre = median(grid.rpm.filter((_, i) => quiet[i] === 1))!
  const y = grid.rpm.map((v) => v - centre)
  const normal = normalEquations(y, usable, order)
  const without: IdleModel['without'] = (range) => normal.solve(range)
  const surprise: IdleModel['surprise'] = (c, row) => {
    let e = y[row]! - c[0]! * CONSTANT
    for (let k = 1; k <= order; k++) e -= c[k]! * y[row - k]!
    return e
  }
  const all = without(undefined)
  const widen = Math.sqrt(rows / (rows - order - 1)) * Math.sqrt(1 + (order + 1) / rows)
  const surprisesRpm = Float64Array.from(indices(usable), (i) => surprise(all, i) * widen)
  const spread = median(surprisesRpm.map(Math.abs))! * MAD_TO_SD
  const sigmaRpm = Math.max(spread, Number.MIN_VALUE)
  return { order, sigmaRpm, surprisesRpm, usable, without, surprise }
}

const indices = (flags: Uint8Array): number[] => Array.from(flags, (f, i) => (f ? i : -1)).filter((i) => i >= 0)

function usableRows(quiet: Uint8Array, order: number): Uint8Array {
  let run = 0
  return quiet.map((q) => {
    run = q ? run + 1 : 0
    return run > order ? 1 : 0
  })
}

/** Sums of the least-squares fit, taken once; a range is left out by taking its rows away again. */
function normalEquations(y: Float64Array, usable: Uint8Array, order: number) {
  const dim = order + 1
  const matrix = new Float64Array(dim * dim)
  const side = new Float64Array(dim)
  const add = (m: Float64Array, v: Float64Array, at: { row: number; sign: 1 | -1 }) => {
    const x = (k: number) => (k === 0 ? CONSTANT : y[at.row - k]!)
    for (let a = 0; a < dim; a++) {
      const xa = at.sign * x(a)
      v[a]! += xa * y[at.row]!
      for (let b = 0; b < dim; b++) m[a * dim + b]! += xa * x(b)
    }
  }
  let squares = 0
  for (const row of indices(usable)) {
    add(matrix, side, { row, sign: 1 })
    squares += y[row]! ** 2
  }
  const ridge = RIDGE * (squares / indices(usable).length) + 1e-6
  const solve = (range: { from: number; to: number } | undefined): Float64Array => {
    const m = Float64Array.from(matrix)
    const v = Float64Array.from(side)
    if (range) {
      const end = Math.min(y.length, range.to + order)
      for (let row = Math.max(0, range.from); row < end; row++) if (usable[row]) add(m, v, { row, sign: -1 })
    }
    for (let a = 0; a < dim; a++) m[a * dim + a]! += ridge
    const found = solveLinear(m, v)
    if (!found) throw new Error('ridge keeps the normal equations solvable')
    return found
  }
  return { solve }
}
