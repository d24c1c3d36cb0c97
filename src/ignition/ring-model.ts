import { median } from '../maths/median.ts'
import { prepareLinearFit } from '../maths/linear-fit.ts'
import { movingMean } from '../maths/moving-mean.ts'

/** How a coil rings once the arc is out: one pair for a channel, since the coil is the same. */
export interface RingModel {
  /** Angular frequency, rad/s. */
  omega: number
  /** Decay, 1/s. */
  alpha: number
}

/** The samples of one event's ring-down: upright kV from a moment on its first falling flank on. */
export interface RingSamples {
  kv: Float64Array
  sampleS: number
  lineKv: number
}

/** The ring is followed over this many cycles to find its frequency: over fewer, offset and decay hide it in noise. */
const CYCLES_FOR_FREQUENCY = 2
/** Events that set the model; more add nothing. */
const MOST_EVENTS = 16
/** Samples are averaged to about this length: a hundredth of a cycle, so that a fast recorder costs no more. */
const THINNED_S = 5e-6
/** A swing counts above this share of the spark line. */
const LEAST_SWING_SHARE = 0.12
const SMOOTHED_S = 20e-6

/**
 * Fits frequency and decay to the ring-downs of many events of a channel at once.
 *
 * @returns undefined where no event rings through at least a half cycle
 */
export function fitRingModel(rings: readonly RingSamples[]): RingModel | undefined {
  const chosen = spread(rings).map(thinned)
  const swings = chosen.map((ring) => swingsOf(ring))
  const halfS = median(swings.flatMap((s) => (s.length > 1 ? [s[1]!.atS - s[0]!.atS] : [])))
  if (halfS === undefined || !(halfS > 0)) return undefined
  const decays = swings.flatMap((s) => decayOf(s))
  const start: RingModel = { omega: Math.PI / halfS, alpha: median(decays) ?? 0.3 / halfS }
  return refine(start, chosen)
}

/** Some of the events, evenly over the record. */
function spread(rings: readonly RingSamples[]): readonly RingSamples[] {
  const step = Math.max(1, Math.ceil(rings.length / MOST_EVENTS))
  return rings.filter((_, i) => i % step === 0)
}

function thinned({ kv, sampleS, lineKv }: RingSamples): RingSamples {
  const width = Math.max(1, Math.round(THINNED_S / sampleS))
  const means = new Float64Array(Math.floor(kv.length / width))
  for (let i = 0; i < means.length; i++) {
    for (let k = 0; k < width; k++) means[i]! += kv[i * width + k]! / width
  }
  return { kv: means, sampleS: sampleS * width, lineKv }
}

/** Turning points after the first falling flank, lows and highs in turn, each confirmed by a swing back. */
function swingsOf({ kv, sampleS, lineKv }: RingSamples): { atS: number; kv: number }[] {
  const smooth = movingMean(kv, Math.max(1, Math.round(SMOOTHED_S / sampleS)))
  const least = LEAST_SWING_SHARE * lineKv
  const found: { atS: number; kv: number }[] = []
  let best = 0
  let seeking = -1
  for (let i = 1; i < smooth.length && found.length < 3; i++) {
    if (seeking * (smooth[i]! - smooth[best]!) > 0) best = i
    else if (Math.abs(smooth[i]! - smooth[best]!) > least) {
      found.push({ atS: best * sampleS, kv: smooth[best]! })
      seeking = -seeking
      best = i
    }
  }
  return found
}

function decayOf(s: readonly { atS: number; kv: number }[]): number[] {
  if (s.length < 3) return []
  const ratio = Math.abs((s[1]!.kv - s[0]!.kv) / (s[1]!.kv - s[2]!.kv))
  return ratio > 1 ? [Math.log(ratio) / (s[2]!.atS - s[1]!.atS)] : []
}

/** Narrowing search over frequency, then decay, in turn: the sum of squares has one valley there. */
function refine(start: RingModel, rings: readonly RingSamples[]): RingModel {
  let model = start
  for (let round = 0, reach = 0.12; round < 4; round++, reach *= 0.45) {
    model = best(
      steps(reach).map((f) => ({ ...model, omega: model.omega * f })),
      rings,
    )
    model = best(
      steps(4 * reach).map((f) => ({ ...model, alpha: model.alpha * f })),
      rings,
    )
  }
  return model
}

const steps = (reach: number): number[] => Array.from({ length: 13 }, (_, i) => Math.exp(reach * (i / 6 - 1)))

function best(models: readonly RingModel[], rings: readonly RingSamples[]): RingModel {
  let least = Infinity
  let chosen = models[0]!
  for (const model of models) {
    const fit = ringFitter(model, { sampleS: rings[0]!.sampleS, cycles: CYCLES_FOR_FREQUENCY })
    let sum = 0
    for (const ring of rings) sum += fit(ring.kv)?.squares ?? 0
    if (sum < least) {
      least = sum
      chosen = model
    }
  }
  return chosen
}

/** A ring laid through one event's samples; t in s from the first of them, may be negative. */
export interface RingFit {
  squares: number
  at: (t: number) => number
  slopeAt: (t: number) => number
  /** The level it rings about. */
  restAt: (t: number) => number
}

/** Fewest samples the four unknowns of a ring are fitted to. */
const LEAST_SAMPLES = 8

/**
 * Least squares of offset + drift t + exp(-alpha t)(a cos(omega t) + b sin(omega t)) over the first `cycles` of a ring.
 *
 * @returns a fit for samples from a falling flank on; it gives undefined for too few of them
 */
export function ringFitter(
  model: RingModel,
  { sampleS, cycles }: { sampleS: number; cycles: number },
): (kv: Float64Array) => RingFit | undefined {
  const full = Math.round((cycles * 2 * Math.PI) / model.omega / sampleS)
  const prepared = full < LEAST_SAMPLES ? undefined : prepareLinearFit(ringColumns(model, sampleS, full))
  return (kv) => {
    const n = Math.min(kv.length, full)
    if (n < LEAST_SAMPLES) return undefined
    const fit = n === full ? prepared : prepareLinearFit(ringColumns(model, sampleS, n))
    return fit && described(fit(kv.subarray(0, n)), model)
  }
}

function ringColumns({ omega, alpha }: RingModel, sampleS: number, n: number): Float64Array[] {
  const columns = [0, 1, 2, 3].map(() => new Float64Array(n))
  for (let i = 0; i < n; i++) {
    const t = i * sampleS
    const e = Math.exp(-alpha * t)
    columns[0]![i] = 1
    columns[1]![i] = t * omega
    columns[2]![i] = e * Math.cos(omega * t)
    columns[3]![i] = e * Math.sin(omega * t)
  }
  return columns
}

function described(
  { coefficients, squares }: { coefficients: Float64Array; squares: number },
  { omega, alpha }: RingModel,
): RingFit {
  const [offset = 0, drift = 0, a = 0, b = 0] = coefficients
  return {
    squares,
    restAt: (t) => offset + drift * omega * t,
    at: (t) =>
      offset + drift * omega * t + Math.exp(-alpha * t) * (a * Math.cos(omega * t) + b * Math.sin(omega * t)),
    slopeAt: (t) =>
      drift * omega +
      Math.exp(-alpha * t) *
        ((b * omega - a * alpha) * Math.cos(omega * t) - (a * omega + b * alpha) * Math.sin(omega * t)),
  }
}
