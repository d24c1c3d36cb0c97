/** Air at which the published constants hold. */
const STANDARD_KPA = 101.325
const STANDARD_K = 293

/** The gap and the gas in it at the instant of ignition. */
export interface GapState {
  gapMm: number
  pressureKpa: number
  temperatureK: number
}

/**
 * Density of air relative to 101.325 kPa and 20 degC.
 *
 * @returns pure number, delta = (p / 101.325 kPa) (293 K / T)
 * @source  IEC 60052, correction for air density
 */
export function relativeDensity(gas: Pick<GapState, 'pressureKpa' | 'temperatureK'>): number {
  return (gas.pressureKpa / STANDARD_KPA) * (STANDARD_K / gas.temperatureK)
}

/**
 * Breakdown voltage of a gap in air, uniform field: V = 24.22 D + 6.08 sqrt(D) kV with D = delta d in cm.
 * A spark plug's electrodes, their heat and the fuel move it by up to a factor of 1.5 either way.
 *
 * @returns peak kV
 * @source  Meek and Craggs, Electrical Breakdown of Gases; constants after Bruce
 */
export function breakdownKv(gap: GapState): number {
  const densityGapCm = relativeDensity(gap) * (gap.gapMm / 10)
  return 24.22 * densityGapCm + 6.08 * Math.sqrt(densityGapCm)
}
