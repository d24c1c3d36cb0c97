import { absent } from '../units/measured.ts'
import { withBudget } from './budget.ts'
import type { EventFigure } from './figures.ts'
import type { SparkLine } from './spark-line.ts'

/** Secondary current on the same samples as the voltage. */
export interface SparkCurrent {
  ampere: Float64Array
  noiseA: number
}

/**
 * Energy of the spark: integral of voltage times current over the burn, trapezoid rule.
 *
 * @param line     of one event, kV
 * @param current  secondary current, A, same samples; without a recorded one the energy is absent, never guessed
 * @returns        mJ (kV x A x s = kJ, x 1e6); u from both noises and the doubt about the burn's ends. Gain is added
 *                 per cylinder. Absent: `not-recorded`, `too-short`.
 * @source         definition E = integral of V I dt
 */
export function energyMj(line: SparkLine, current: SparkCurrent | undefined): EventFigure<'mJ'> {
  if (!current) return absent('not-recorded')
  const { kv, sampleS, noiseKv } = line.wave
  const first = Math.ceil(line.from)
  const last = Math.floor(line.to)
  if (last - first < 2 || last >= current.ampere.length) return absent('too-short')
  const power = (i: number): number => kv[i]! * current.ampere[i]!
  let sum = 0
  let noise = 0
  for (let i = first; i <= last; i++) {
    sum += (i === first || i === last ? 0.5 : 1) * power(i)
    noise += (current.ampere[i]! * noiseKv) ** 2 + (kv[i]! * current.noiseA) ** 2
  }
  // The parts of a sample between the burn's ends and the first and last whole ones.
  sum += (first - line.from) * power(first) + (line.to - last) * power(last)
  const mj = sampleS * 1e6
  return withBudget(sum * mj, 'mJ', [
    { source: 'noise', u: Math.sqrt(noise) * mj },
    { source: 'sampling', u: Math.hypot(power(first), power(last)) * line.endU * mj },
  ])
}
