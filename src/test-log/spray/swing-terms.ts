import { leastSquaresLine } from '../../maths/least-squares-line.ts'
import { lombScargle } from '../../maths/lomb-scargle.ts'
import { powerSpectrum } from '../../maths/power-spectrum.ts'

/** Swings looked for, Hz: slower ones are drift, faster ones are gone within the memory of the prediction. */
const FROM_HZ = 0.15
const TO_HZ = 2
/** Steps of the search as a share of the resolution of the trace (one over its length). */
const SEARCH = 1 / 6
/** Rows times frequencies from which a trace is long: the search would grow with the square of its length. */
const MOST_TURNED = 1e8
/** Halvings of that step around the best. */
const HALVINGS = 12

/**
 * A steady swing and a drift as columns of the idle model, each a value a row: straight line, cosine, sine. What swings
 * evenly over the whole trace is known from both sides of a spray, and better than from two seconds before it.
 *
 * @param y     speed, rpm, about zero; shape (rows of the trace)
 * @param rows  undisturbed rows
 * @param scale largest value of a column
 */
export function swingTerms(
  y: Float64Array,
  rows: readonly number[],
  { stepS, scale }: { stepS: number; scale: number },
): Float64Array[] {
  const hz = swingHz(y, rows, stepS)
  const column = (of: (row: number) => number) => Float64Array.from(y, (_, row) => scale * of(row))
  const turn = 2 * Math.PI * hz * stepS
  return [
    column((row) => (2 * row) / y.length - 1),
    column((row) => Math.cos(turn * row)),
    column((row) => Math.sin(turn * row)),
  ]
}

/** Frequency of the sine that takes most out of the undisturbed rows. */
function swingHz(y: Float64Array, rows: readonly number[], stepS: number): number {
  const timesS = Float64Array.from(rows, (row) => row * stepS)
  const speeds = Float64Array.from(rows, (row) => y[row]!)
  const line = leastSquaresLine(timesS, speeds)
  const values = line ? speeds.map((v, i) => v - line.intercept - line.slope * timesS[i]!) : speeds
  const off = new Float64Array(y.length)
  rows.forEach((row, i) => {
    off[row] = values[i]!
  })
  const toHz = Math.min(TO_HZ, 0.4 / stepS)
  const searched = y.length ** 2 * (toHz - FROM_HZ) * (stepS / SEARCH)
  const found = searched > MOST_TURNED ? byTransform(off, stepS, toHz) : byTurning(off, stepS, toHz)
  let { step } = found
  const near = (hz: number) => lombScargle({ timesS, values }, [hz]).power[0]!
  let best = { hz: found.hz, power: near(found.hz) }
  for (let k = 0; k < HALVINGS; k++) {
    step /= 2
    for (const hz of [best.hz - step, best.hz + step]) {
      const power = near(hz)
      if (power > best.power) best = { hz, power }
    }
  }
  return best.hz
}

/** The strongest frequency of a search, and the step of that. */
interface Found {
  hz: number
  step: number
}

/** One frequency after the other. */
function byTurning(off: Float64Array, stepS: number, toHz: number): Found {
  const step = SEARCH / (off.length * stepS)
  let best = { hz: FROM_HZ, power: 0 }
  for (let hz = FROM_HZ; hz <= toHz; hz += step) {
    const power = roughPower(off, 2 * Math.PI * hz * stepS)
    if (power > best.power) best = { hz, power }
  }
  return { hz: best.hz, step }
}

/** All frequencies at once, at steps no wider. */
function byTransform(off: Float64Array, stepS: number, toHz: number): Found {
  const size = 2 ** Math.ceil(Math.log2(off.length / SEARCH))
  const step = 1 / (size * stepS)
  const power = powerSpectrum(off, size)
  let best = Math.ceil(FROM_HZ / step)
  for (let k = best; k * step <= toHz; k++) if (power[k]! > power[best]!) best = k
  return { hz: best * step, step }
}

/** Power at one frequency with disturbed rows as zeros: quick, since the angle only ever turns by one step. */
function roughPower(off: Float64Array, turn: number): number {
  const [c, s] = [Math.cos(turn), Math.sin(turn)]
  let [x, y, re, im] = [1, 0, 0, 0]
  for (let i = 0; i < off.length; i++) {
    re += off[i]! * x
    im += off[i]! * y
    const turned = x * c - y * s
    y = x * s + y * c
    x = turned
  }
  return re * re + im * im
}
