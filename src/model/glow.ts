import { relativeDensity, type GapState } from './breakdown.ts'

/** Cathode fall of a normal glow in air. Heywood 1988, sec. 9.5.1: 300-500 V. */
const CATHODE_FALL_KV = 0.33
/** Drop along the glow's column per mm at relative density 1: brings an idling 1 mm gap to about 1.2 kV (Heywood's 400-1000 V and more). */
const COLUMN_KV_PER_MM = 0.32
/** Current at which the two constants above are meant, A. */
const REFERENCE_A = 0.04
/** Exponent of the falling volt-ampere law: gap voltage rises by a tenth when the current halves. */
const FALLING_EXPONENT = 0.12

/** Gap voltage of the glow at 40 mA, kV, by gap length and density of the gas. */
export function glowKvAtReference(gap: GapState): number {
  return CATHODE_FALL_KV + COLUMN_KV_PER_MM * relativeDensity(gap) * gap.gapMm
}

/**
 * Gap voltage at a given current: V = V40 (I / 40 mA)^-0.12, the negative volt-ampere law of a glow.
 *
 * @param referenceKv  gap voltage at 40 mA
 * @param currentA     above 0
 * @returns            kV
 */
export function glowKv(referenceKv: number, currentA: number): number {
  return referenceKv * Math.pow(currentA / REFERENCE_A, -FALLING_EXPONENT)
}
