import type { EventFlag, EventWave, IgnitionEvent } from '../../src/ignition/event.ts'
import type { Random } from '../../src/maths/random.ts'

/** A made event in closed form; everything measured of it is known beforehand. Times from breakdown. */
export interface WaveShape {
  sampleS: number
  /** Where the breakdown falls between two samples, 0..1. */
  phase: number
  burnMs: number
  /** Spark line over its share of the burn, kV. */
  line: (share: number) => number
  firingKv: number
  climbKvPerUs: number
  /** Half life of the collapse, us. */
  collapseUs: number
  dwellMs: number
  ring: { khz: number; decrement: number; kv: number }
  noiseKv: number
  quantumKv: number
}

export const HEALTHY: WaveShape = {
  sampleS: 2e-6,
  phase: 0.37,
  burnMs: 1.4,
  line: (s) => 1.8 - 0.4 * s + 0.35 * s * s,
  firingKv: 9,
  climbKvPerUs: 0.7,
  collapseUs: 0.4,
  dwellMs: 3.5,
  ring: { khz: 2.4, decrement: 0.6, kv: 2 },
  noiseKv: 0.014,
  quantumKv: 0,
}

/** Noise-free voltage of a shape at a time, ms from breakdown. */
function voltageAt(shape: WaveShape, ms: number): number {
  const climbMs = shape.firingKv / shape.climbKvPerUs / 1000
  if (ms < -climbMs) return ms > -climbMs - shape.dwellMs ? -1 : 0
  if (ms <= 0) return shape.firingKv + shape.climbKvPerUs * 1000 * ms
  if (ms <= shape.burnMs) {
    const kv = shape.line(ms / shape.burnMs)
    return kv + (shape.firingKv - kv) * 2 ** -(((ms * 1000) / shape.collapseUs) ** 2)
  }
  const { khz, decrement, kv } = shape.ring
  const cycles = (ms - shape.burnMs) * khz
  return kv * Math.exp(-decrement * cycles) * Math.cos(2 * Math.PI * cycles)
}

/** The shape as a recorder would take it. */
export function waveOf(shape: WaveShape, random?: Random): EventWave {
  const sampleMs = shape.sampleS * 1000
  const before = Math.ceil((shape.dwellMs + 0.5) / sampleMs)
  const breakdown = before + shape.phase
  const count = before + Math.ceil((shape.burnMs + 3.2) / sampleMs)
  const kv = Float64Array.from({ length: count }, (_, i) => {
    const noisy =
      voltageAt(shape, (i - breakdown) * sampleMs) + (random ? shape.noiseKv * random.gaussian() : 0)
    return shape.quantumKv > 0 ? Math.round(noisy / shape.quantumKv) * shape.quantumKv : noisy
  })
  const near = kv.subarray(before - 3, before + 4)
  return {
    kv,
    sampleS: shape.sampleS,
    breakdown,
    peak: before - 3 + near.indexOf(Math.max(...near)),
    sparkEnd: breakdown + shape.burnMs / sampleMs,
    dwellStart: breakdown - (shape.dwellMs + shape.firingKv / shape.climbKvPerUs / 1000) / sampleMs,
    baselineKv: 0,
    noiseKv: random ? shape.noiseKv : 0,
    quantumKv: shape.quantumKv,
    limitKv: undefined,
  }
}

/** The wave as an event of cylinder 1. */
export function eventOf(wave: EventWave, more: Partial<IgnitionEvent> = {}): IgnitionEvent {
  const flags: readonly EventFlag[] = []
  return {
    capture: 'captures/made.csv',
    channel: 0,
    number: 1,
    cylinder: 1,
    kind: 'firing',
    breakdownS: 0,
    endS: undefined,
    wave,
    flags,
    ...more,
  }
}

/** A present figure, or a failed test. */
export function present<T extends { ok: boolean }>(figure: T): Extract<T, { ok: true }> {
  if (!figure.ok) throw new Error(`absent: ${JSON.stringify(figure)}`)
  return figure as Extract<T, { ok: true }>
}
