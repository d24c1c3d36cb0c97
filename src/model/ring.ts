import { secondaryHenry, type Coil } from './coil.ts'

/** A damped oscillation v(t) = exp(-alpha t)(a cos wt + b sin wt), t from its start in s, v in kV. */
export interface Ring {
  alphaPerS: number
  radPerS: number
  cosKv: number
  sinKv: number
}

/** Undamped frequency of an inductor and a capacitor, Hz: 1 / (2 pi sqrt(LC)). */
export const resonanceHz = (henry: number, farad: number): number =>
  1 / (2 * Math.PI * Math.sqrt(henry * farad))

/** Frequency of a ring with damping, Hz, from its logarithmic decrement a cycle: fd = f0 / sqrt(1 + (delta / 2 pi)^2). */
export const dampedHz = (undampedHz: number, decrement: number): number =>
  undampedHz / Math.hypot(1, decrement / (2 * Math.PI))

/** Frequency at which the coil's secondary rings, Hz, its damping included. */
export const coilRingHz = (coil: Coil): number =>
  dampedHz(resonanceHz(secondaryHenry(coil), coil.secondaryPf * 1e-12), coil.decrement)

/**
 * Ring of the coil from a given voltage and current: what is left in the coil when the arc goes out.
 * The current still flowing charges the winding, so the first crest comes after the start and above its voltage.
 *
 * @param startKv   voltage at the start
 * @param currentA  current that flows into the secondary's capacitance at the start
 */
export function coilRing(coil: Coil, startKv: number, currentA: number): Ring {
  const hz = coilRingHz(coil)
  const alphaPerS = coil.decrement * hz
  const radPerS = 2 * Math.PI * hz
  const slopeKvPerS = (currentA / (coil.secondaryPf * 1e-12)) * 1e-3
  return { alphaPerS, radPerS, cosKv: startKv, sinKv: (slopeKvPerS + alphaPerS * startKv) / radPerS }
}

/** Value at t, kV. */
export function ringKv(ring: Ring, tS: number): number {
  const phase = ring.radPerS * tS
  return Math.exp(-ring.alphaPerS * tS) * (ring.cosKv * Math.cos(phase) + ring.sinKv * Math.sin(phase))
}

/** Instant of the first crest or trough after the start, s: where tan(wt) = (b w - a alpha) / (b alpha + a w). */
export function firstExtremeS(ring: Ring): number {
  const up = ring.sinKv * ring.radPerS - ring.cosKv * ring.alphaPerS
  const across = ring.sinKv * ring.alphaPerS + ring.cosKv * ring.radPerS
  const phase = Math.atan(up / across)
  return (phase > 0 ? phase : phase + Math.PI) / ring.radPerS
}

/**
 * Oscillations that can be seen: half cycles whose swing from crest to trough exceeds a threshold, halved.
 * All extremes lie half a period apart and shrink by exp(-alpha T/2).
 */
export function visibleCycles(ring: Ring, swingKv: number): number {
  const firstKv = Math.abs(ringKv(ring, firstExtremeS(ring)))
  const shrink = Math.exp((-ring.alphaPerS * Math.PI) / ring.radPerS)
  const firstSwingKv = firstKv * (1 + shrink)
  if (firstSwingKv <= swingKv) return 0
  return Math.ceil(Math.log(swingKv / firstSwingKv) / Math.log(shrink)) / 2
}
