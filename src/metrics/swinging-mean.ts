import { lagOneAutocorrelation } from '../maths/autocorrelation.ts'
import { median } from '../maths/median.ts'
import { solveLinear } from '../maths/solve-linear.ts'
import { sum } from '../maths/mean-sd.ts'
import type { CycleSpeed } from './cycle-speeds.ts'

/** Mean speed with the swing told apart, rpm; standard uncertainty from the scatter, and its degrees of freedom. */
export interface SpeedMean {
  rpm: number
  scatterU: number
  freedom: number
}

/** Mean, two parts of the sine, and its frequency. */
const PARAMETERS = 4
/** The frequency comes from a grid; this many steps of Gauss and Newton bring it to the minimum. */
const ROUNDS = 4
/** Fewer degrees of freedom are not taken: the scatter is also known from cycles that are not independent. */
export const LEAST_FREEDOM = 5

/**
 * Mean speed of a swinging idle: mean plus a sine by least squares, cycle speeds weighted by their length, so that the
 * mean is one of turns over time. A few periods' swing would otherwise pass for scatter of the mean.
 *
 * The uncertainty is that of the fit for what the sine leaves, with the frequency among the unknowns, and with as many
 * independent cycles as the residuals' lag-1 correlation leaves of one cylinder's (all see the same crankshaft).
 *
 * @param byCylinder  cycle speeds of each cylinder, in order of time
 * @param hz          frequency found
 * @returns           undefined where the cycles do not fix the fit
 * @source            Bretthorst 1988, Bayesian Spectrum Analysis, ch. 2; JCGM 100:2008, H.3 (least squares)
 */
export function swingingMean(
  byCylinder: readonly (readonly CycleSpeed[])[],
  hz: number,
): SpeedMean | undefined {
  const all = byCylinder.flat()
  const cycles = Math.max(0, ...byCylinder.map((series) => series.length))
  if (cycles <= PARAMETERS + 1) return undefined
  let omega = 2 * Math.PI * hz
  let fit: Fit | undefined
  for (let round = 0; round < ROUNDS; round++) {
    fit = fitSwing(all, omega, fit)
    if (!fit) return undefined
    omega += fit.change
  }
  const { rpm, at, meanVariance } = fit!
  const meanLength = sum(all.map((c) => c.intervalS)) / all.length
  const left = (c: CycleSpeed): number => c.rpm - at(c.atS)
  const squares = sum(all.map((c) => (c.intervalS / meanLength) * left(c) ** 2)) / all.length
  const r = median(byCylinder.flatMap((series) => lagOneAutocorrelation(series.map(left)) ?? [])) ?? 0
  // Few cycles, and the fit itself, make a correlation look smaller than it is.
  const kept = Math.min(0.95, Math.max(0, r + (1 + 3 * r) / cycles))
  const independent = Math.max(2, (cycles * (1 - kept)) / (1 + kept))
  const variance = (squares * cycles) / (cycles - PARAMETERS)
  // Of n independent cycles the mean alone would keep 1/n; how much more the fit leaves open, its own matrix says.
  const opened = meanVariance * all.length * meanLength
  return {
    rpm,
    scatterU: Math.sqrt((variance * opened) / independent),
    freedom: Math.max(LEAST_FREEDOM, independent - PARAMETERS),
  }
}

interface Fit {
  rpm: number
  cos: number
  sin: number
  /** What the angular frequency is off by, rad/s. */
  change: number
  /** Top left of the inverse of the weighted normal matrix, 1/s. */
  meanVariance: number
  at: (t: number) => number
}

/** One weighted fit of mean, cosine, sine and, once these are known, of a change of frequency. */
function fitSwing(all: readonly CycleSpeed[], omega: number, before: Fit | undefined): Fit | undefined {
  const middle = sum(all.map((c) => c.atS)) / all.length
  const span = Math.max(...all.map((c) => Math.abs(c.atS - middle)))
  const rowOf = ({ atS }: CycleSpeed): number[] => {
    const [c, s] = [Math.cos(omega * (atS - middle)), Math.sin(omega * (atS - middle))]
    // Times in units of the half span, so that all columns are of like size.
    return before
      ? [
          1,
          c,
          s,
          (((atS - middle) / span) * (s * before.cos - c * before.sin)) / Math.hypot(before.cos, before.sin),
        ]
      : [1, c, s]
  }
  const rows = all.map(rowOf)
  const n = rows[0]!.length
  const matrix = Float64Array.from({ length: n * n }, (_, k) =>
    sum(rows.map((row, i) => all[i]!.intervalS * row[Math.floor(k / n)]! * row[k % n]!)),
  )
  const right = Float64Array.from({ length: n }, (_, k) =>
    sum(rows.map((row, i) => all[i]!.intervalS * row[k]! * all[i]!.rpm)),
  )
  const found = solveLinear(matrix, right)
  const inverse = solveLinear(
    matrix,
    Float64Array.from({ length: n }, (_, k) => (k === 0 ? 1 : 0)),
  )
  if (!found || !inverse || !(inverse[0]! > 0)) return undefined
  const [rpm, cos, sin, turned] = found as unknown as [number, number, number, number?]
  return {
    rpm,
    cos,
    sin,
    meanVariance: inverse[0]!,
    change: before && turned !== undefined ? -turned / (span * Math.hypot(before.cos, before.sin)) : 0,
    at: (t) => rpm + cos * Math.cos(omega * (t - middle)) + sin * Math.sin(omega * (t - middle)),
  }
}
