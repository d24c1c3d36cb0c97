/** An inductive ignition coil, its driver and what hangs on its secondary. */
export interface Coil {
  primaryMh: number
  primaryOhm: number
  /** Supply less the driver's own drop. */
  supplyV: number
  /** The driver holds the current here; Infinity for a driver without a limit. */
  currentLimitA: number
  turnsRatio: number
  /** Share of the ideal turns ratio seen at the secondary while the primary charges. */
  coupling: number
  /** Share of the stored energy that reaches the secondary at switch-off. */
  transfer: number
  /** Winding, lead and plug together. */
  secondaryPf: number
  windingKohm: number
  /** Logarithmic decrement of the ring-down, a cycle. */
  decrement: number
  /** Leakage resonance excited by switching on and by the current limit. */
  rippleKhz: number
  /** Damping ratio of that ripple. */
  rippleZeta: number
  /** Fall time of the primary current at switch-off. */
  switchOffUs: number
  dwellMs: number
}

export const DISTRIBUTOR_COIL: Coil = {
  primaryMh: 4.2,
  primaryOhm: 0.55,
  supplyV: 12.5,
  currentLimitA: 7,
  turnsRatio: 118,
  coupling: 0.83,
  transfer: 0.68,
  secondaryPf: 75,
  windingKohm: 9,
  decrement: 0.66,
  rippleKhz: 8.2,
  rippleZeta: 0.07,
  switchOffUs: 3,
  dwellMs: 3.8,
}
export const PLUG_TOP_COIL: Coil = {
  primaryMh: 3.2,
  primaryOhm: 0.5,
  supplyV: 12.5,
  currentLimitA: 7.6,
  turnsRatio: 122,
  coupling: 0.88,
  transfer: 0.6,
  secondaryPf: 62,
  windingKohm: 8,
  decrement: 0.68,
  rippleKhz: 10.5,
  rippleZeta: 0.08,
  switchOffUs: 3,
  dwellMs: 3.2,
}
export const PAIR_COIL: Coil = {
  primaryMh: 4.5,
  primaryOhm: 0.5,
  supplyV: 12.5,
  currentLimitA: 7.2,
  turnsRatio: 115,
  coupling: 0.85,
  transfer: 0.66,
  secondaryPf: 42,
  windingKohm: 10,
  decrement: 0.75,
  rippleKhz: 9,
  rippleZeta: 0.08,
  switchOffUs: 3,
  dwellMs: 3.4,
}

/** Energy of an inductor, mJ: 1/2 L I^2. */
export const inductorMj = (inductanceMh: number, currentA: number): number =>
  0.5 * inductanceMh * currentA * currentA

/** Energy of a capacitor, mJ: 1/2 C V^2. */
export const capacitorMj = (capacitancePf: number, kv: number): number => 0.5e-3 * capacitancePf * kv * kv

/** Inductance seen at the secondary, H: the primary's times the square of the turns ratio. */
export const secondaryHenry = (coil: Coil): number =>
  coil.primaryMh * 1e-3 * coil.turnsRatio * coil.turnsRatio

/**
 * Primary current after `dwellS` of charging, A: (V/R)(1 - exp(-t R/L)), held at the driver's limit.
 */
export function primaryCurrentA(coil: Coil, dwellS: number): number {
  const settledA = coil.supplyV / coil.primaryOhm
  const tauS = (coil.primaryMh * 1e-3) / coil.primaryOhm
  return Math.min(settledA * (1 - Math.exp(-dwellS / tauS)), coil.currentLimitA)
}

/** Instant after switch-on at which the driver starts to limit, s; Infinity where it never does. */
export function limitReachedS(coil: Coil): number {
  const settledA = coil.supplyV / coil.primaryOhm
  if (coil.currentLimitA >= settledA) return Infinity
  return -((coil.primaryMh * 1e-3) / coil.primaryOhm) * Math.log(1 - coil.currentLimitA / settledA)
}

/** Secondary current just after switch-off, A, from the energy that crosses over. */
export function secondaryStartA(coil: Coil, dwellS: number): number {
  const crossedJ = coil.transfer * inductorMj(coil.primaryMh, primaryCurrentA(coil, dwellS)) * 1e-3
  return Math.sqrt((2 * crossedJ) / secondaryHenry(coil))
}
