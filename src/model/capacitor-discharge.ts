import type { PlugDraw } from './draw-plug.ts'
import { glowKv } from './glow.ts'

/** A capacitor-discharge unit: a charged capacitor dumped into a small transformer at every plug. */
export interface CapacitorUnit {
  /** Rise to breakdown, far steeper than a coil's. */
  riseUs: number
  /** The discharge swings to and fro at this frequency. */
  ringKhz: number
  decayUs: number
  peakA: number
}

/** Values usual for small engines and racing boxes. Common practice, no source. */
export const CAPACITOR_UNIT: CapacitorUnit = { riseUs: 3, ringKhz: 11, decayUs: 45, peakA: 0.09 }

export interface CapacitorSpark {
  unit: CapacitorUnit
  plug: PlugDraw
  /** From breakdown until the swinging current can no longer hold a glow. */
  burnS: number
}

/** The glow dies and strikes anew each time the current passes zero; this rounds the corner, A. */
const CROSSING_A = 4e-3
/** What is left in the transformer rings on a little. */
const TAIL_SHARE = 0.35
const TAIL_LENGTHS = 8

export function capacitorSpark(unit: CapacitorUnit, plug: PlugDraw): CapacitorSpark {
  return { unit, plug, burnS: unit.decayUs * 1e-6 * Math.log(unit.peakA / plug.state.holdA) }
}

/** Last instant at which the spark shows, s from the trigger. */
export const capacitorEndS = (spark: CapacitorSpark): number =>
  (spark.unit.riseUs + TAIL_LENGTHS * spark.unit.decayUs) * 1e-6 + spark.burnS

/** Voltage at the lead, kV, t from the trigger in s. */
export function capacitorKv(spark: CapacitorSpark, tS: number): number {
  const { unit, plug, burnS } = spark
  const riseS = unit.riseUs * 1e-6
  if (tS < 0) return 0
  if (tS < riseS) return plug.breakdownKv * Math.sin((Math.PI / 2) * (tS / riseS))
  const sinceS = tS - riseS
  const swing = Math.cos(2 * Math.PI * unit.ringKhz * 1e3 * sinceS)
  const decay = Math.exp(-sinceS / (unit.decayUs * 1e-6))
  const amps = unit.peakA * decay * swing
  const holding = glowKv(plug.gap.glowKv, plug.state.holdA)
  if (sinceS > burnS) return TAIL_SHARE * holding * swing * Math.exp((burnS - sinceS) / (unit.decayUs * 1e-6))
  const glow = glowKv(plug.gap.glowKv, Math.abs(amps) + plug.state.holdA) * Math.tanh(amps / CROSSING_A)
  return glow + amps * plug.gap.seriesKohm
}
