/**
 * Pressure units of the trade in kPa.
 * @source NIST Special Publication 811 (2008), appendix B.8: psi 6.894757 kPa, conventional inch of mercury 3.386389 kPa
 */
const KPA_PER = { kPa: 1, bar: 100, psi: 6.894757, inHg: 3.386389 } as const

export type PressureUnit = keyof typeof KPA_PER

/** Standard atmosphere, kPa. @source ISO 2533:1975 */
export const ATMOSPHERE_KPA = 101.325

export const isPressureUnit = (unit: string): unit is PressureUnit => Object.hasOwn(KPA_PER, unit)

/** A pressure or a difference of pressures in kPa. */
export const toKpa = (value: number, unit: PressureUnit): number => value * KPA_PER[unit]

/** kPa in another unit. */
export const fromKpa = (kpa: number, unit: PressureUnit): number => kpa / KPA_PER[unit]
