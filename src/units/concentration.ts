/** Parts per million in one per cent. */
const PPM_PER_PERCENT = 10000

export type ConcentrationUnit = '%vol' | '%' | 'ppm'

/** A concentration by volume in % vol. */
export const toPercentVol = (value: number, unit: ConcentrationUnit): number =>
  unit === 'ppm' ? value / PPM_PER_PERCENT : value

/** A concentration by volume in ppm. */
export const toPpm = (value: number, unit: ConcentrationUnit): number =>
  unit === 'ppm' ? value : value * PPM_PER_PERCENT
