import { makeRandom, type Random } from '../maths/random.ts'

/** One spray at one place, as it would be logged, with what the engine does about it. */
interface Spray {
  fromS: number
  toS: number
  /** Change of speed the spray would bring if the idle control did nothing; 0 where the place does not leak. */
  responseRpm: number
  /** From the start of the spray to the first change: way to the leak and through the manifold. */
  delayS: number
}

/** Engine speed at a warm idle, as a scan tool or a tachometer logs it. */
export interface SpeedTraceParameters {
  seed: number
  durationS: number
  sampleHz: number
  rpm: number
  /** Slow swing of an uneasy idle: peak to peak, and its frequency. */
  swingRpm: number
  swingHz: number
  /** rms of a slow wandering, and of the reading's own noise. */
  driftRpm: number
  noiseRpm: number
  /** Step of the reading. */
  stepRpm: number
  /** Time constant with which the idle control takes back any change, s; Infinity for none. */
  controlS: number
  sprays: readonly Spray[]
  /** Throttle touched by hand: instants, and how far the speed jumps. */
  blips: readonly { atS: number; rpm: number }[]
}

interface SprayTruth extends Spray {
  /** Largest and mean change the spray really made, after the idle control's pull, rpm with its sign. */
  peakRpm: number
  meanRpm: number
}

export interface SimulatedSpeedTrace {
  sampleS: number
  /** shape (n): the logged reading */
  rpm: Float64Array
  /** shape (n): what the sprays alone changed */
  responseRpm: Float64Array
  sprays: readonly SprayTruth[]
}

/** A spray's vapour builds up and washes out of the manifold over these times. Our choice, no source. */
const BUILD_S = 0.35
const WASH_S = 0.8
/** Memory of the drift, and how fast the swing loses its phase. */
const DRIFT_S = 12
const PHASE_WALK = 0.25
/** A blip lasts about this long. */
const BLIP_S = 0.5

/** Change of speed asked for by one spray, before the idle control. */
function asked(spray: Spray, tS: number): number {
  const sinceS = tS - spray.fromS - spray.delayS
  if (sinceS <= 0) return 0
  const lengthS = spray.toS - spray.fromS
  const built = 1 - Math.exp(-Math.min(sinceS, lengthS) / BUILD_S)
  return spray.responseRpm * built * (sinceS > lengthS ? Math.exp(-(sinceS - lengthS) / WASH_S) : 1)
}

/** The idle control integrates the error away: a first-order high-pass over the disturbance. */
function controlled(disturbance: Float64Array, controlS: number, sampleS: number): Float64Array {
  if (controlS === Infinity) return disturbance
  const keep = Math.exp(-sampleS / controlS)
  const out = new Float64Array(disturbance.length)
  for (let i = 1; i < out.length; i++) out[i] = keep * (out[i - 1]! + disturbance[i]! - disturbance[i - 1]!)
  return out
}

/** Everything that is not a spray: swing with a wandering phase, drift, blips. */
function background(p: SpeedTraceParameters, n: number, random: Random): Float64Array {
  const sampleS = 1 / p.sampleHz
  const keep = Math.exp(-sampleS / DRIFT_S)
  const fresh = p.driftRpm * Math.sqrt(1 - keep * keep)
  let drift = p.driftRpm * random.gaussian()
  let phase = 2 * Math.PI * random.uniform()
  return Float64Array.from({ length: n }, (_, i) => {
    drift = keep * drift + fresh * random.gaussian()
    phase += 2 * Math.PI * p.swingHz * sampleS + PHASE_WALK * Math.sqrt(sampleS) * random.gaussian()
    const blips = p.blips.reduce((sum, blip) => {
      const sinceS = i * sampleS - blip.atS
      return sinceS < 0 ? sum : sum + blip.rpm * (sinceS / BLIP_S) * Math.exp(1 - sinceS / BLIP_S)
    }, 0)
    return drift + (p.swingRpm / 2) * Math.sin(phase) + blips
  })
}

function truthOf(spray: Spray, response: Float64Array, sampleS: number): SprayTruth {
  const from = Math.ceil((spray.fromS + spray.delayS) / sampleS)
  const to = Math.min(Math.floor((spray.toS + spray.delayS) / sampleS), response.length - 1)
  const window = response.subarray(from, to + 1)
  const peakRpm = window.reduce((peak, rpm) => (Math.abs(rpm) > Math.abs(peak) ? rpm : peak), 0)
  return {
    ...spray,
    peakRpm,
    meanRpm: window.length === 0 ? 0 : window.reduce((sum, rpm) => sum + rpm, 0) / window.length,
  }
}

/**
 * Simulates a trace of engine speed during spray tests.
 *
 * @param parameters  same parameters, same trace; sprays far enough apart that their responses do not overlap
 */
export function simulateSpeedTrace(parameters: SpeedTraceParameters): SimulatedSpeedTrace {
  const { durationS, sampleHz, sprays, controlS, noiseRpm, stepRpm } = parameters
  const sampleS = 1 / sampleHz
  const n = Math.floor(durationS * sampleHz)
  const random = makeRandom(parameters.seed)
  const wanted = Float64Array.from({ length: n }, (_, i) =>
    sprays.reduce((sum, spray) => sum + asked(spray, i * sampleS), 0),
  )
  const responseRpm = controlled(wanted, controlS, sampleS)
  const rest = background(parameters, n, random)
  const rpm = Float64Array.from(rest, (other, i) => {
    const reading = parameters.rpm + other + responseRpm[i]! + noiseRpm * random.gaussian()
    return Math.round(reading / stepRpm) * stepRpm
  })
  return { sampleS, rpm, responseRpm, sprays: sprays.map((spray) => truthOf(spray, responseRpm, sampleS)) }
}
