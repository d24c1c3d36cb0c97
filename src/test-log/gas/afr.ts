import type { FuelRatio } from './fuels.ts'

/**
 * Stoichiometric air-fuel ratio by mass, kg air a kg fuel.
 *
 * The reference fuel of the exhaust regulations is not a 14.7 fuel (it comes to 13.97): the usual 14.7 for petrol is
 * common practice and must not be mixed with its H/C.
 *
 * @source Heywood 1988, eq. 3.6 for CHy, extended by the fuel's oxygen (dry air 28.96 kg/kmol, 4.773 mol an O2)
 */
export const stoichiometricAfr = ({ hydrogen, oxygen }: FuelRatio): number =>
  (34.56 * (4 + hydrogen - 2 * oxygen)) / (12.011 + 1.008 * hydrogen + 16 * oxygen)

/** Air-fuel ratio of a blend of fuels by mass; shares sum to 1. */
export const blendAfr = (parts: readonly { share: number; afr: number }[]): number =>
  parts.reduce((sum, p) => sum + p.share * p.afr, 0)
