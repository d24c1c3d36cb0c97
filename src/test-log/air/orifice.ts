import { ATMOSPHERE_KPA } from '../../units/pressure.ts'

/** Ratio of specific heats and gas constant of air, J/(kg K). */
const GAMMA = 1.4
const R_AIR = 287.05
/** Air at the hole: 20 degC. */
const AIR_K = 293.15
const G_PER_KG = 1000
const MM2_PER_M2 = 1e6
const PA_PER_KPA = 1000

/** Pressure ratio below which the flow no longer rises. @source Heywood 1988, App. C; 0.528 for air */
export const criticalRatio = (gamma = GAMMA): number => (2 / (gamma + 1)) ** (gamma / (gamma - 1))

/** Flow function of a pressure ratio: 0 at 1, at its largest and constant (choked) below the critical ratio. */
export function flowFunction(ratio: number, gamma = GAMMA): number {
  const r = Math.min(1, Math.max(ratio, criticalRatio(gamma)))
  return Math.sqrt(((2 * gamma) / (gamma - 1)) * (r ** (2 / gamma) - r ** ((gamma + 1) / gamma)))
}

/**
 * Air through each mm2 of effective opening (discharge coefficient times area) into the manifold, g/s per mm2.
 *
 * @param manifoldKpa  absolute pressure behind the hole
 * @param outsideKpa   absolute pressure before it
 * @source Saint-Venant and Wantzel 1839; Heywood 1988, App. C, eq. C.8 and C.9
 */
export function airFluxGpsPerMm2(manifoldKpa: number, outsideKpa = ATMOSPHERE_KPA): number {
  const flux = ((outsideKpa * PA_PER_KPA) / Math.sqrt(R_AIR * AIR_K)) * flowFunction(manifoldKpa / outsideKpa)
  return (flux * G_PER_KG) / MM2_PER_M2
}

/** Whether the flow into the manifold is choked. */
export const isChoked = (manifoldKpa: number, outsideKpa = ATMOSPHERE_KPA): boolean =>
  manifoldKpa / outsideKpa <= criticalRatio()

/** Effective opening (discharge coefficient times area, mm2) that passes `airGps`; undefined without a pressure drop. */
export function effectiveAreaMm2(airGps: number, manifoldKpa: number): number | undefined {
  const flux = airFluxGpsPerMm2(manifoldKpa)
  return flux > 0 ? airGps / flux : undefined
}

/** Diameter of the round hole of that effective opening, mm. */
export const holeDiameterMm = (areaMm2: number, dischargeCoefficient: number): number =>
  Math.sqrt((4 * areaMm2) / (Math.PI * dischargeCoefficient))
