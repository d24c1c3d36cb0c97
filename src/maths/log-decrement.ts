import { leastSquaresLine } from './least-squares-line.ts'

/** Decay of a ringing: logarithmic decrement per cycle and its standard deviation (undefined from two peaks). */
export interface Decrement {
  delta: number
  sd: number | undefined
}

/**
 * Logarithmic decrement per cycle from peak heights one cycle apart: less the slope of ln(height) over the cycles,
 * which for two peaks is ln(x1 / x2).
 *
 * @param peaks  heights > 0, in order
 * @returns      undefined for fewer than two peaks or a height that is not above 0
 * @source       definition in vibration handbooks: delta = ln(x_k / x_(k+n)) / n
 */
export function logDecrement(peaks: readonly number[]): Decrement | undefined {
  if (peaks.length < 2 || peaks.some((p) => !(p > 0))) return undefined
  const line = leastSquaresLine(
    peaks.map((_, k) => k),
    peaks.map(Math.log),
  )!
  return { delta: -line.slope, sd: line.slopeSd }
}

/** Damping ratio of a decrement: delta / sqrt(4 pi^2 + delta^2). */
export const dampingRatio = (delta: number): number => delta / Math.hypot(2 * Math.PI, delta)
