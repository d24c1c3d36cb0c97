import { mad, MAD_TO_SD } from '../maths/mad.ts'
import { prepareLinearFit } from '../maths/linear-fit.ts'
import { FIRST_SHARE, LAST_SHARE, type SparkLine } from './spark-line.ts'

/** How a spark line scatters about its own smooth course: the arc's turbulence, the recorder's noise and steps. */
export interface Turbulence {
  /** Standard deviation of single samples, kV. */
  sdKv: number
  /** Successive samples it takes to learn as much as one independent one tells; 1 for white noise. */
  memory: number
}

/** Samples farther off than this many spreads are restrikes or strays. */
const FURTHEST = 4
/** By this share of the burn turbulence has forgotten itself: it lasts some tens of microseconds, a burn a thousand or more. */
const FORGOTTEN = 0.05
/** Lags from there to here show the full scatter. */
const FULL = 0.08
/** Fewest samples in a half. */
const LEAST_SAMPLES = 12

/**
 * Scatter of a spark line and its memory, from half the mean square difference of samples k apart: it rises with k to
 * the full variance, and what it lacks at small k is their covariance. Differences leave out what is slow, so that the
 * smooth course need be taken off only roughly: a parabola in each half, since a lean line turns in its middle.
 *
 * @param line   of one event
 * @param floor  spread below which residuals say nothing, kV
 * @returns      undefined where the halves hold fewer than 12 samples each
 * @source       memory as the sum of autocorrelations: Bartlett 1946, Supplement to the Journal of the Royal Statistical
 *               Society 8, 27-41; variogram: Matheron 1963, Economic Geology 58, 1246-1266
 */
export function turbulenceOf(line: SparkLine, floor: number): Turbulence | undefined {
  const halves = [
    [FIRST_SHARE, 0.5],
    [0.5, LAST_SHARE],
  ].map(([from, to]) => residuals(line, from!, to!))
  if (halves.some((r) => r === undefined)) return undefined
  const both = halves as Float64Array[]
  const length = line.to - line.from
  const forgotten = Math.max(2, Math.round(FORGOTTEN * length))
  const full = Math.max(forgotten + 1, Math.round(FULL * length))
  const differences = variogram(
    both.map((r) => clipped(r, floor)),
    full,
  )
  const variance = differences.slice(forgotten - 1).reduce((a, b) => a + b, 0) / (full - forgotten + 1)
  if (!(variance > 0)) return { sdKv: floor, memory: 1 }
  const lacking = differences.slice(0, forgotten - 1).reduce((total, d) => total + (variance - d), 0)
  return { sdKv: Math.max(floor, Math.sqrt(variance)), memory: Math.max(1, 1 + (2 * lacking) / variance) }
}

/** What a parabola leaves of part of the line. */
function residuals(line: SparkLine, from: number, to: number): Float64Array | undefined {
  const length = line.to - line.from
  const y = line.wave.kv.slice(Math.ceil(line.from + from * length), Math.floor(line.from + to * length))
  const n = y.length
  if (n < LEAST_SAMPLES) return undefined
  const columns = [0, 1, 2].map((power) =>
    new Float64Array(n).map((_, i) => ((2 * i) / (n - 1) - 1) ** power),
  )
  const fit = prepareLinearFit(columns)?.(y)
  if (!fit) return undefined
  const [level, slope, bend] = fit.coefficients
  return y.map((v, i) => v - (level! * columns[0]![i]! + slope! * columns[1]![i]! + bend! * columns[2]![i]!))
}

function clipped(values: Float64Array, floor: number): Float64Array {
  const far = FURTHEST * Math.max(floor, MAD_TO_SD * mad(values)!)
  return values.map((v) => Math.max(-far, Math.min(far, v)))
}

/** Half the mean square difference of values k apart, k = 1 to `most`, over all stretches. */
function variogram(stretches: readonly Float64Array[], most: number): number[] {
  return Array.from({ length: most }, (_, i) => {
    let total = 0
    let count = 0
    for (const values of stretches) {
      for (let j = i + 1; j < values.length; j++) total += (values[j]! - values[j - i - 1]!) ** 2
      count += Math.max(0, values.length - i - 1)
    }
    return count > 0 ? total / count / 2 : 0
  })
}
