import { K95 } from '../maths/normal.ts'
import { lagOneAutocorrelation } from '../maths/autocorrelation.ts'
import { robustLine } from '../maths/robust-line.ts'
import { absent, type AbsenceCode } from '../units/measured.ts'
import { blockMeans } from './block-means.ts'
import { withBudget, type Budgeted } from './budget.ts'
import type { SparkLine } from './spark-line.ts'

/** Parts of the burn over which the two slopes are taken, as shares. */
export const EARLY = { from: 0.1, to: 0.5 } as const
export const LATE = { from: 0.5, to: 0.9 } as const

/** A robust line over part of the burn: slope with budget, and what is needed to draw it. */
export interface PartLine {
  slope: Budgeted<'kV/ms'>
  interceptKv: number
  slopeKvPerSample: number
}

/** Both robust lines of one spark line, drawn once for all figures that ask for them; each may be absent. */
export interface PartLines {
  early: PartLine | Absent
  late: PartLine | Absent
}
type Absent = { ok: false; why: AbsenceCode }

export const partLines = (line: SparkLine): PartLines => ({
  early: partLine(line, EARLY),
  late: partLine(line, LATE),
})

/** Fewest samples a part may hold. */
const LEAST_SAMPLES = 5
/** At most this many block means go into the pairwise slopes (cost grows with the square). */
const MOST_BLOCKS = 60

/**
 * Slope of the spark line over part of the burn, by the Theil-Sen line through block means.
 *
 * @param line  of one event, kV
 * @param part  shares of the burn, `EARLY` or `LATE`
 * @returns     kV/ms; u (k = 1) from the interval of the pairwise slopes, widened where neighbouring blocks are alike
 *              (slow turbulence), and from the doubt about the ends. Gain is added per cylinder. Absent: `too-short`.
 * @source      Sen 1968, Journal of the American Statistical Association 63, 1379-1389
 */
export function partLine(line: SparkLine, part: { from: number; to: number }): PartLine | Absent {
  const { wave } = line
  const length = line.to - line.from
  const first = Math.ceil(line.from + part.from * length)
  const last = Math.floor(line.from + part.to * length)
  if (last - first + 1 < LEAST_SAMPLES) return absent('too-short')
  const y = wave.kv.subarray(first, last + 1)
  const x = Float64Array.from(y, (_, i) => first + i)
  const blocks = blockMeans({ x, y }, MOST_BLOCKS)
  const fit = robustLine(blocks.x, blocks.y)!
  const left = blocks.y.map((v, i) => v - fit.intercept - fit.slope * blocks.x[i]!)
  const r = Math.min(0.9, Math.max(0, lagOneAutocorrelation(left) ?? 0))
  const perMs = 1 / (wave.sampleS * 1000)
  const noise = ((fit.slopeHigh - fit.slopeLow) / (2 * K95)) * Math.sqrt((1 + r) / (1 - r))
  return {
    slopeKvPerSample: fit.slope,
    interceptKv: fit.intercept,
    slope: withBudget(fit.slope * perMs, 'kV/ms', [
      { source: 'noise', u: noise * perMs },
      // Two steps' worth of doubt over the length of the part.
      { source: 'quantisation', u: (wave.quantumKv / Math.sqrt(6) / (last - first)) * perMs },
    ]),
  }
}
