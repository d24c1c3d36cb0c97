import type { Engine } from '../../job/schema.ts'

/** Atoms of hydrogen and oxygen for one of carbon. */
export interface FuelRatio {
  hydrogen: number
  oxygen: number
}

export type Fuel = Engine['fuel']

/**
 * H/C and O/C of the fuels as exhaust regulations set them. Blends at a pump vary; lambda near 1 hardly depends on them.
 * @source UN Regulation 83 para 5.3.7.3 and Directive 98/69/EC for petrol (unrounded 1.7261, 0.0176 as instruments use),
 *         LPG, natural gas; UN R83 06 and 07 series for E5, E10, E85. E5, E10, E85, LPG, CNG: from memory.
 */
export const FUEL_RATIOS: Readonly<Record<Fuel, FuelRatio>> = {
  E0: { hydrogen: 1.7261, oxygen: 0.0176 },
  E5: { hydrogen: 1.89, oxygen: 0.016 },
  E10: { hydrogen: 1.93, oxygen: 0.033 },
  E85: { hydrogen: 2.74, oxygen: 0.385 },
  LPG: { hydrogen: 2.525, oxygen: 0 },
  CNG: { hydrogen: 4, oxygen: 0 },
}
