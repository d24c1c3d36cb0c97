import type { Random } from '../maths/random.ts'
import type { Discharge, PlugWave } from './discharge.ts'

/** What is laid over the smooth line of one burn, kV at even steps from breakdown: not part of the stated levels. */
export interface Hash {
  stepS: number
  /** shape (n) */
  kv: Float64Array
}

const STEP_S = 2e-6
/** Turbulence stretches and lets go of the arc over tens of microseconds. Our choice, no source. */
const MEMORY_S = 14e-6
/** An arc about to break stretches over this time, then strikes again in a few microseconds. */
const STRETCH_S = 110e-6
const STRIKE_DECAY_S = 3e-6

/** First-order random walk about zero with a given rms: turbulence. */
function addTurbulence(kv: Float64Array, rmsKv: number, random: Random): void {
  const keep = Math.exp(-STEP_S / MEMORY_S)
  const fresh = rmsKv * Math.sqrt(1 - keep * keep)
  let level = 0
  for (let i = 0; i < kv.length; i++) {
    level = keep * level + fresh * random.gaussian()
    kv[i] = kv[i]! + level
  }
}

/** The line climbs as the arc is blown out, a new breakdown ends it. */
function addRestrike(kv: Float64Array, atS: number, random: Random): void {
  const stretchKv = 0.5 + 0.5 * random.uniform()
  const strikeKv = 1.5 + 2.5 * random.uniform()
  for (let i = 0; i < kv.length; i++) {
    const since = i * STEP_S - atS
    if (since < -STRETCH_S) continue
    const added =
      since < 0 ? stretchKv * (1 + since / STRETCH_S) ** 2 : strikeKv * Math.exp(-since / STRIKE_DECAY_S)
    kv[i] = kv[i]! + added
  }
}

/** Draws what lies over the line of one plug's burn. */
export function drawHash(discharge: Discharge, wave: PlugWave, random: Random): Hash | undefined {
  const burnS = discharge.burn?.burnS
  if (burnS === undefined) return undefined
  const kv = new Float64Array(Math.ceil(burnS / STEP_S) + 1)
  addTurbulence(kv, wave.plug.state.turbulenceKv, random)
  for (const share of wave.plug.restrikeShares) addRestrike(kv, share * burnS, random)
  return { stepS: STEP_S, kv }
}

/** Value at t after breakdown, kV, straight between steps. */
export function hashKv(hash: Hash, tS: number): number {
  const at = tS / hash.stepS
  const from = Math.floor(at)
  if (from < 0 || from + 1 >= hash.kv.length) return 0
  return hash.kv[from]! + (at - from) * (hash.kv[from + 1]! - hash.kv[from]!)
}
