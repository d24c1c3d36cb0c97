import { absent } from '../units/measured.ts'
import { withBudget } from './budget.ts'
import type { EventFigure } from './figures.ts'
import { EARLY, LATE, partLines } from './slopes.ts'
import type { SparkLine } from './spark-line.ts'

/**
 * Roughness: rms of the spark line between 10 and 90 % of the burn after the early and the late robust line are taken
 * out. It holds turbulence, the bend of the line, restrikes, and the recorder's own noise and steps.
 *
 * @param line   of one event, kV
 * @param parts  its two robust lines
 * @returns      kV; u (k = 1): rms / sqrt(2 (n - 4)) for n samples and four fitted coefficients, and half of what noise
 *               and steps alone would leave, since they cannot be told from the arc's own. Absent: `too-short`.
 * @source       definition: shop-practice; spread of a standard deviation: JCGM 100:2008, E.4.3
 */
export function roughnessKv(line: SparkLine, parts = partLines(line)): EventFigure<'kV'> {
  const length = line.to - line.from
  let squares = 0
  let count = 0
  for (const [part, fit] of [
    [EARLY, parts.early],
    [LATE, parts.late],
  ] as const) {
    if (!('slope' in fit)) return absent(fit.why)
    const last = Math.floor(line.from + part.to * length)
    for (let i = Math.ceil(line.from + part.from * length); i <= last; i++) {
      squares += (line.wave.kv[i]! - fit.interceptKv - fit.slopeKvPerSample * i) ** 2
      count++
    }
  }
  const rms = Math.sqrt(squares / count)
  const own = Math.hypot(line.wave.noiseKv, line.wave.quantumKv / Math.sqrt(12))
  return withBudget(rms, 'kV', [
    { source: 'noise', u: rms / Math.sqrt(2 * Math.max(1, count - 4)) },
    { source: 'method', u: rms > 0 ? (own * own) / (2 * rms) : 0 },
  ])
}
