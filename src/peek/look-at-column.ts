import { noiseSd } from '../ignition/quiet-level.ts'
import { findPolarity } from '../ignition/polarity.ts'
import { syncPulses } from '../ignition/sync-pulses.ts'
import { median } from '../maths/median.ts'

/** What the samples of one column show, whatever its name and unit say. */
export interface Look {
  low: number
  high: number
  /** Breakdowns that a spark line follows: how many, the share charged by a dwell before, times in s, and how sure the direction. */
  sparks:
    | { count: number; perS: number; chargedShare: number; sureness: number; timesS: readonly number[] }
    | undefined
  /** Pulses that could be a sync: times, and how even their spacing (spread over middle). */
  pulses: { timesS: readonly number[]; perS: number; spread: number } | undefined
  /** Share of samples within a tenth of the range of the middle value: near 1 for pulses on a quiet base. */
  restShare: number
  /** Mean step between neighbours over the range: small for a slow, smooth quantity. */
  roughness: number
}

/** Slower than this no firing line shows, and nothing is looked for in the samples. */
const SLOWEST_SAMPLE_S = 100e-6
/** Samples looked at for level and roughness. */
const MOST_SAMPLES = 20_000

/**
 * Looks at a column.
 * @param data     shape (rows), any unit; not changed
 * @param sampleS  undefined where the rate is not known or not even
 */
export function lookAtColumn(
  data: Float32Array,
  { sampleS, quantum }: { sampleS: number | undefined; quantum: number },
): Look {
  const fast = sampleS !== undefined && sampleS <= SLOWEST_SAMPLE_S
  const [low, high] = rangeOf(data)
  const rises = high > low
  return {
    low,
    high,
    ...levelOf(data, high - low),
    sparks: fast && rises ? sparksOf(data, sampleS, quantum) : undefined,
    pulses: fast && rises ? pulsesOf(data, sampleS, quantum) : undefined,
  }
}

export function rangeOf(data: Float32Array): [number, number] {
  let [low, high] = [Infinity, -Infinity]
  for (let i = 0; i < data.length; i++) {
    const value = data[i]!
    if (value < low) low = value
    if (value > high) high = value
  }
  return [low, high]
}

function sparksOf(data: Float32Array, sampleS: number, quantum: number): Look['sparks'] {
  const { blocks, picks, sureness } = findPolarity(data, 'auto', {
    sampleS,
    noiseKv: noiseSd(data),
    quantumKv: quantum,
  })
  const sparks = picks.filter((p) => p.line)
  const charged = sparks.filter((p) => p.charged).length
  return {
    count: sparks.length,
    perS: sparks.length / (data.length * sampleS),
    chargedShare: sparks.length ? charged / sparks.length : 0,
    sureness,
    timesS: sparks.map((p) => p.peak * blocks.blockS),
  }
}

function pulsesOf(data: Float32Array, sampleS: number, quantum: number): Look['pulses'] {
  const timesS = syncPulses(data, { sampleS, startS: 0, quantum })
    .filter((m) => m.state === 'seen')
    .map((m) => m.atS)
  const gaps = timesS.slice(1).map((t, i) => t - timesS[i]!)
  const middle = median(gaps)
  const spread = middle === undefined ? Infinity : median(gaps.map((g) => Math.abs(g - middle)))! / middle
  return { timesS, perS: timesS.length / (data.length * sampleS), spread }
}

/** Both from stretches of neighbours spread over the record. */
function levelOf(data: Float32Array, range: number): { restShare: number; roughness: number } {
  const step = Math.max(1, Math.floor(data.length / MOST_SAMPLES))
  const sample: number[] = []
  let climbs = 0
  for (let i = 0; i + 1 < data.length; i += step) {
    sample.push(data[i]!)
    climbs += Math.abs(data[i + 1]! - data[i]!)
  }
  const middle = median(sample)
  if (middle === undefined || !(range > 0)) return { restShare: 1, roughness: 0 }
  return {
    restShare: sample.filter((v) => Math.abs(v - middle) < 0.1 * range).length / sample.length,
    roughness: climbs / sample.length / range,
  }
}
