import { limitReachedS, type Coil } from './coil.ts'

/** Answer of the coil's leakage resonance to a step of 1, t from the step in s. */
function stepResponse(coil: Coil, tS: number): number {
  if (tS <= 0) return 0
  const rad = 2 * Math.PI * coil.rippleKhz * 1e3
  const damped = rad * Math.sqrt(1 - coil.rippleZeta * coil.rippleZeta)
  return 1 - Math.exp(-coil.rippleZeta * rad * tS) * Math.cos(damped * tS)
}

/**
 * Secondary voltage while the primary charges, kV, firing line upward: a step of opposite polarity with a ripple,
 * shrinking as the winding's resistance takes up the supply, and a hump where the driver starts to limit the current
 * (the primary's voltage falls away there).
 *
 * @param tS  time from switch-on
 */
export function dwellKv(coil: Coil, tS: number): number {
  const tauS = (coil.primaryMh * 1e-3) / coil.primaryOhm
  const fullKv = coil.turnsRatio * coil.coupling * coil.supplyV * 1e-3
  const limitS = limitReachedS(coil)
  const charging = -fullKv * Math.exp(-Math.min(tS, limitS) / tauS)
  return charging * (stepResponse(coil, tS) - stepResponse(coil, tS - limitS))
}
