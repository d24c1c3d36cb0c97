import { describe, expect, test } from 'vitest'
import { gapEnergyMj, lineKv, solveBurn, type BurnCircuit, type BurningGap } from '../../src/model/burn.ts'
import { glowKv } from '../../src/model/glow.ts'

const GAP: BurningGap = { glowKv: 1.2, mixtureKv: 0, seriesKohm: 14, rotorKv: 0.1 }
const CIRCUIT: BurnCircuit = { gaps: [GAP], inductanceH: 58, windingKohm: 9, startA: 0.048, holdA: 1.2e-3 }

/** Energy balance: what the coil gives up, 1/2 L (I0^2 - I1^2), must be what gap, rotor and resistances take. */
function balanceMj(circuit: BurnCircuit): { given: number; taken: number } {
  const burn = solveBurn(circuit)
  const given = 0.5e3 * circuit.inductanceH * (circuit.startA ** 2 - circuit.holdA ** 2)
  let taken = circuit.gaps.reduce((sum, gap) => sum + gapEnergyMj(burn, gap), 0)
  const ohms = (circuit.windingKohm + circuit.gaps.reduce((sum, gap) => sum + gap.seriesKohm, 0)) * 1e3
  const rotorV = circuit.gaps.reduce((sum, gap) => sum + gap.rotorKv, 0) * 1e3
  for (let i = 1; i < burn.currentA.length; i++) {
    const amps = (burn.currentA[i - 1]! + Math.max(burn.currentA[i]!, circuit.holdA)) / 2
    taken += (amps * amps * ohms + amps * rotorV) * burn.stepS * 1e3
  }
  return { given, taken }
}

describe('burn', () => {
  test('coil energy given up is energy taken, within 0.5 %', () => {
    for (const mixtureKv of [0, 0.8, -0.4]) {
      const { given, taken } = balanceMj({ ...CIRCUIT, gaps: [{ ...GAP, mixtureKv }] })
      expect(Math.abs(taken / given - 1)).toBeLessThan(5e-3)
    }
  })

  test('without resistance and at a constant voltage the current falls straight: t = L (I0 - Ih) / V (closed form)', () => {
    // 1.5 kV held by the rotor term alone; the glow is made negligible.
    const burn = solveBurn({
      ...CIRCUIT,
      windingKohm: 0,
      gaps: [{ glowKv: 1e-9, mixtureKv: 0, seriesKohm: 0, rotorKv: 1.5 }],
    })
    expect(burn.burnS).toBeCloseTo((58 * (0.048 - 1.2e-3)) / 1500, 7)
  })

  test('falling volt-ampere law: half the current, a higher gap voltage', () => {
    expect(glowKv(1.2, 0.04)).toBe(1.2)
    expect(glowKv(1.2, 0.02)).toBeGreaterThan(1.25)
    expect(glowKv(1.2, 0.02)).toBeLessThan(1.4)
  })

  test('the mixture term starts at the midpoint and stands in full at 90 % of the burn', () => {
    const lean = solveBurn({ ...CIRCUIT, gaps: [{ ...GAP, mixtureKv: 0.7 }] })
    const gap = lean.circuit.gaps[0]!
    const withoutTerm = (share: number): number => lineKv(lean, { ...gap, mixtureKv: 0 }, share * lean.burnS)
    expect(lineKv(lean, gap, 0.5 * lean.burnS)).toBeCloseTo(withoutTerm(0.5), 9)
    expect(lineKv(lean, gap, 0.9 * lean.burnS) - withoutTerm(0.9)).toBeCloseTo(0.7, 6)
    expect(lean.burnS).toBeLessThan(solveBurn(CIRCUIT).burnS)
  })

  test('resistance outside raises the start, steepens the early fall and shortens the burn', () => {
    const healthy = solveBurn(CIRCUIT)
    const resisted = solveBurn({ ...CIRCUIT, gaps: [{ ...GAP, seriesKohm: 50 }] })
    const early = (burn: typeof healthy): number =>
      (lineKv(burn, burn.circuit.gaps[0]!, 0.5 * burn.burnS) -
        lineKv(burn, burn.circuit.gaps[0]!, 0.1 * burn.burnS)) /
      (0.4e3 * burn.burnS)
    expect(lineKv(resisted, resisted.circuit.gaps[0]!, 0.1 * resisted.burnS)).toBeGreaterThan(2.5)
    expect(early(resisted)).toBeLessThan(3 * early(healthy))
    expect(resisted.burnS).toBeLessThan(0.8 * healthy.burnS)
  })

  test('no current to spare: no burn', () => expect(solveBurn({ ...CIRCUIT, startA: 1e-3 }).burnS).toBe(0))
})
