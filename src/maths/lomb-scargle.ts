import { mean } from './mean-sd.ts'

/** Power of a series at some frequencies. */
export interface Periodogram {
  hz: Float64Array
  /** Scargle's power, square of the series' unit. */
  power: Float64Array
  /** Share of the series' sum of squares that a sine of that frequency takes out, 0..1. */
  share: Float64Array
}

/**
 * Periodogram of an unevenly sampled series, mean removed.
 *
 * @param series  times in s and values, same length
 * @param hz      frequencies to try, > 0
 * @returns       all zero for a constant series
 * @source        Scargle 1982, Astrophysical Journal 263, 835-853, equation (10)
 */
export function lombScargle(
  series: { timesS: ArrayLike<number>; values: ArrayLike<number> },
  hz: ArrayLike<number>,
): Periodogram {
  const { timesS, values } = series
  if (timesS.length !== values.length) throw new RangeError('a periodogram needs as many times as values')
  const middle = mean(values) ?? 0
  const off = Float64Array.from(values, (v) => v - middle)
  const squares = off.reduce((total, d) => total + d * d, 0)
  const power = Float64Array.from(hz, (f) => powerAt(2 * Math.PI * f, timesS, off))
  const share = power.map((p) => (squares > 0 ? (2 * p) / squares : 0))
  return { hz: Float64Array.from(hz), power, share }
}

function powerAt(omega: number, timesS: ArrayLike<number>, off: Float64Array): number {
  let sin2 = 0,
    cos2 = 0
  for (let i = 0; i < off.length; i++) {
    sin2 += Math.sin(2 * omega * timesS[i]!)
    cos2 += Math.cos(2 * omega * timesS[i]!)
  }
  // The shift that makes sine and cosine independent on these very times.
  const tau = Math.atan2(sin2, cos2) / (2 * omega)
  let yc = 0,
    ys = 0,
    cc = 0,
    ss = 0
  for (let i = 0; i < off.length; i++) {
    const c = Math.cos(omega * (timesS[i]! - tau))
    const s = Math.sin(omega * (timesS[i]! - tau))
    yc += off[i]! * c
    ys += off[i]! * s
    cc += c * c
    ss += s * s
  }
  return 0.5 * ((cc > 0 ? (yc * yc) / cc : 0) + (ss > 0 ? (ys * ys) / ss : 0))
}
