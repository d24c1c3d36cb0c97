import { MAD_TO_SD } from '../../maths/mad.ts'
import { median } from '../../maths/median.ts'
import { predictionEquations, type Prediction } from './prediction-equations.ts'
import type { SpeedGrid } from './speed-grid.ts'
import { swingTerms } from './swing-terms.ts'

/**
 * What an undisturbed idle does next: a linear prediction from what it just did (autoregression over about two
 * seconds) and, where the trace bears it out, from a steady swing and a drift of the whole trace, all fitted to its
 * unsprayed rows at once. It follows drift, a periodic swing and the push of the idle control alike, so that what it
 * leaves (the surprises) is close to even noise, and neighbouring rows are independent.
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
  /** Fitted without the rows that touch [from, to). */
  without: (rows: { from: number; to: number } | undefined) => Prediction
  /** Speed of a row less its prediction, rpm. */
  surprise: (prediction: Prediction, row: number) => number
}

/** Memory of the prediction, s: with five steps a second ten lags, enough for a swing of 0.2 Hz in noise. */
const MEMORY_S = 2
const MIN_ORDER = 3
/** Puts constant, drift and swing on the scale of the speeds. */
const SCALE = 10
/** Rows a coefficient; fewer cannot be fitted. */
const ROWS_PER_COEFFICIENT = 4

/** Lags used on steps of `stepS`. */
const orderFor = (stepS: number): number => Math.max(MIN_ORDER, Math.round(MEMORY_S / stepS))

/**
 * @param quiet  1 for rows that no spray and no throttle touched, shape as grid.rpm
 * @returns      undefined where too few rows are quiet to fit it
 */
export function fitIdleModel(grid: SpeedGrid, quiet: Uint8Array): IdleModel | undefined {
  const order = orderFor(grid.stepS)
  const usable = usableRows(quiet, order)
  const rows = indices(usable)
  if (rows.length < ROWS_PER_COEFFICIENT * (order + 1)) return undefined
  const centre = median(grid.rpm.filter((_, i) => quiet[i] === 1))!
  const y = grid.rpm.map((v) => v - centre)
  const constant = y.map(() => SCALE)
  const short = predictionEquations({ y, usable, order, terms: [constant] })
  const long =
    rows.length < ROWS_PER_COEFFICIENT * (order + 4)
      ? short
      : predictionEquations({
          y,
          usable,
          order,
          terms: [constant, ...swingTerms(y, rows, { stepS: grid.stepS, scale: SCALE })],
        })
  const { without, surprise, coefficients } = worth(long, rows) < worth(short, rows) ? long : short
  const all = without(undefined)
  const widen =
    Math.sqrt(rows.length / (rows.length - coefficients)) * Math.sqrt(1 + coefficients / rows.length)
  const surprisesRpm = Float64Array.from(rows, (row) => surprise(all, row) * widen)
  const spread = median(surprisesRpm.map(Math.abs))! * MAD_TO_SD
  const sigmaRpm = Math.max(spread, Number.MIN_VALUE)
  return { order, sigmaRpm, surprisesRpm, usable, without, surprise }
}

/**
 * Less is better: fit against number of coefficients.
 * @source Schwarz 1978, Annals of Statistics 6, 461-464 (BIC); from memory
 */
function worth(
  { without, surprise, coefficients }: ReturnType<typeof predictionEquations>,
  rows: readonly number[],
): number {
  const all = without(undefined)
  const squares = rows.reduce((sum, row) => sum + surprise(all, row) ** 2, 0)
  return (
    rows.length * Math.log(squares / rows.length + Number.MIN_VALUE) + coefficients * Math.log(rows.length)
  )
}

const indices = (flags: Uint8Array): number[] =>
  Array.from(flags, (f, i) => (f ? i : -1)).filter((i) => i >= 0)

function usableRows(quiet: Uint8Array, order: number): Uint8Array {
  let run = 0
  return quiet.map((q) => {
    run = q ? run + 1 : 0
    return run > order ? 1 : 0
  })
}
