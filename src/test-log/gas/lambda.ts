import type { FuelRatio } from './fuels.ts'

/** A dry exhaust gas, all in % by volume except HC in ppm by volume as n-hexane. */
export interface ExhaustGas {
  coPct: number
  co2Pct: number
  hcPpm: number
  o2Pct: number
}

/** Carbon atoms of one molecule counted as HC: analysers read n-hexane. */
const CARBON_PER_HC = 6
const PPM_PER_PCT = 10000
/** Water-gas constant of the formula. */
const WATER_GAS = 3.5

/**
 * Air-fuel ratio over the stoichiometric one, from the exhaust gas.
 *
 * Unburnt fuel is counted with its oxygen, so a misfire does not shift it. Air that leaks into the exhaust or the probe
 * does: it raises O2 and lambda together and cannot be told from a lean mixture by this sum. Oxides of nitrogen are
 * left out, as the regulation does.
 *
 * @returns undefined without CO2: no combustion, the formula divides by it
 * @source  Brettschneider 1979; UN Regulation 83 para 5.3.7.3
 */
export function lambdaOf(gas: ExhaustGas, fuel: FuelRatio): number | undefined {
  const { coPct, co2Pct, o2Pct } = gas
  if (!(co2Pct > 0)) return undefined
  const hcPct = (gas.hcPpm / PPM_PER_PCT) * CARBON_PER_HC
  const hydrogen = (fuel.hydrogen / 4) * (WATER_GAS / (WATER_GAS + coPct / co2Pct))
  const oxygen = co2Pct + coPct / 2 + o2Pct + (hydrogen - fuel.oxygen / 2) * (co2Pct + coPct)
  const needed = (1 + fuel.hydrogen / 4 - fuel.oxygen / 2) * (co2Pct + coPct + hcPct)
  return oxygen / needed
}

/**
 * Sum of carbon in the gas (CO2 + CO + carbon of HC, % vol) that this lambda asks for, from the balance of carbon,
 * hydrogen, oxygen and the air's nitrogen. Readings far off it do not belong together: a wrong entry, another fuel, an
 * analyser out of order. Air let in by a leak fits the balance, so this does not find leaks.
 *
 * @source balance of 1 mol C of fuel burnt in lambda times its oxygen, N2:O2 = 3.76; the cross-check of CO2 and O2
 */
export function expectedCarbonPct(gas: ExhaustGas, fuel: FuelRatio): number | undefined {
  const lambda = lambdaOf(gas, fuel)
  if (lambda === undefined) return undefined
  const hcPct = (gas.hcPpm / PPM_PER_PCT) * CARBON_PER_HC
  const carbonPct = gas.co2Pct + gas.coPct + hcPct
  const nitrogenPerCarbon = 3.76 * lambda * (1 + fuel.hydrogen / 4 - fuel.oxygen / 2)
  const water = WATER_GAS / (WATER_GAS + gas.coPct / gas.co2Pct)
  const burntShare = (gas.co2Pct + gas.coPct) / carbonPct
  const hydrogenPerCarbon = (fuel.hydrogen / 2) * (1 - water) * burntShare
  const hcMolecules = (1 - burntShare) / CARBON_PER_HC
  const oxygenPerCarbon = gas.o2Pct / carbonPct
  return 100 / (burntShare + hcMolecules + oxygenPerCarbon + hydrogenPerCarbon + nitrogenPerCarbon)
}

/**
 * Standard uncertainty of lambda (k = 1) from those of the readings, by the law of propagation with numeric slopes.
 *
 * @param u  standard uncertainties in the units of the readings
 * @source   JCGM 100:2008, 5.1.2
 */
export function lambdaUncertainty(gas: ExhaustGas, fuel: FuelRatio, u: ExhaustGas): number | undefined {
  const at = lambdaOf(gas, fuel)
  if (at === undefined) return undefined
  const keys = ['coPct', 'co2Pct', 'hcPpm', 'o2Pct'] as const
  const parts = keys.map((key) => (lambdaOf({ ...gas, [key]: gas[key] + u[key] }, fuel) ?? at) - at)
  return Math.hypot(...parts)
}
