import { solveLinear } from '../../maths/solve-linear.ts'

/** Coefficients of a prediction: one a lag, nearest first, and one a term (constant, drift, swing). */
export interface Prediction {
  lags: Float64Array
  terms: Float64Array
}

export interface PredictionRows {
  /** Speed about zero, rpm, shape (rows of the trace). */
  y: Float64Array
  /** 1 for rows to fit. */
  usable: Uint8Array
  order: number
  /** What else a row is predicted from, each a value a row. */
  terms: readonly Float64Array[]
}

/** Keeps the fit steady where lags are nearly alike; a thousandth of one row's variance among hundreds of rows moves no figure that matters. */
const RIDGE = 0.001
/** The same for the terms, in squares of their own unit. */
const TERM_RIDGE = 1e-6

/** Least squares of a row on its lags and terms: the sums are taken once, a range is left out by taking its rows away again. */
export function predictionEquations({ y, usable, order, terms }: PredictionRows) {
  const dim = order + terms.length
  const matrix = new Float64Array(dim * dim)
  const side = new Float64Array(dim)
  const x = new Float64Array(dim)
  const add = (m: Float64Array, v: Float64Array, { row, sign }: { row: number; sign: 1 | -1 }) => {
    for (let k = 0; k < order; k++) x[k] = y[row - 1 - k]!
    terms.forEach((term, k) => {
      x[order + k] = term[row]!
    })
    for (let a = 0; a < dim; a++) {
      const xa = sign * x[a]!
      v[a]! += xa * y[row]!
      for (let b = 0; b < dim; b++) m[a * dim + b]! += xa * x[b]!
    }
  }
  let rows = 0
  let squares = 0
  for (let row = 0; row < y.length; row++) {
    if (!usable[row]) continue
    add(matrix, side, { row, sign: 1 })
    squares += y[row]! ** 2
    rows++
  }
  const ridge = RIDGE * (squares / rows) + TERM_RIDGE
  const without = (range: { from: number; to: number } | undefined): Prediction => {
    const m = Float64Array.from(matrix)
    const v = Float64Array.from(side)
    if (range) {
      const end = Math.min(y.length, range.to + order)
      for (let row = Math.max(0, range.from); row < end; row++) if (usable[row]) add(m, v, { row, sign: -1 })
    }
    for (let a = 0; a < dim; a++) m[a * dim + a]! += a < order ? ridge : TERM_RIDGE
    const found = solveLinear(m, v)
    if (!found) throw new Error('ridge keeps the normal equations solvable')
    return { lags: found.subarray(0, order), terms: found.subarray(order) }
  }
  const surprise = (prediction: Prediction, row: number): number => {
    let e = y[row]!
    for (let k = 0; k < order; k++) e -= prediction.lags[k]! * y[row - 1 - k]!
    for (let k = 0; k < terms.length; k++) e -= prediction.terms[k]! * terms[k]![row]!
    return e
  }
  return { without, surprise, coefficients: dim }
}
