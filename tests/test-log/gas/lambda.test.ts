import { describe, expect, test } from 'vitest'
import { FUEL_RATIOS } from '../../../src/test-log/gas/fuels.ts'
import {
  expectedCarbonPct,
  lambdaOf,
  lambdaUncertainty,
  type ExhaustGas,
} from '../../../src/test-log/gas/lambda.ts'
import { referenceText } from '../../maths/reference-data.ts'

const gas = (coPct: number, co2Pct: number, hcPpm: number, o2Pct: number): ExhaustGas => ({
  coPct,
  co2Pct,
  hcPpm,
  o2Pct,
})
const E0 = FUEL_RATIOS.E0

describe('worked values (computed from the formula of UN Regulation 83, tolerance 0.0005)', () => {
  const R83 = { hydrogen: 1.73, oxygen: 0.02 }
  test.each([
    [gas(0.02, 15.3, 2, 0.14), 1.00577, 1.00577, 1.00498, 1.00398, 1.00559, 1.00544],
    [gas(0.5, 14.7, 100, 0.7), 1.01389, 1.01388, 1.01044, 1.00602, 1.01303, 1.01143],
    [gas(2, 13, 200, 0.5), 0.95615, 0.95612, 0.95563, 0.95464, 0.95576, 0.95074],
    [gas(0.1, 13.5, 50, 2), 1.09772, 1.09773, 1.08469, 1.06828, 1.0947, 1.09269],
    [gas(3.5, 12, 300, 0.3), 0.90046, 0.90039, 0.90241, 0.90426, 0.90041, 0.89166],
    [gas(0.2, 12, 400, 4), 1.19965, 1.19968, 1.1711, 1.13514, 1.19303, 1.18863],
    [gas(6, 10.5, 500, 0.2), 0.82319, 0.82307, 0.82663, 0.82989, 0.82309, 0.80721],
  ])('%o', (reading, ...expected) => {
    const fuels = [E0, R83, FUEL_RATIOS.LPG, FUEL_RATIOS.CNG, FUEL_RATIOS.E10, FUEL_RATIOS.E85]
    fuels.forEach((fuel, i) => expect(lambdaOf(reading, fuel)).toBeCloseTo(expected[i]!, 4))
  })
})

describe('readings with the lambda the instrument printed (Estonian Road Administration open data, MIT licence)', () => {
  test.each([
    [gas(0.04, 15.3, 2, 0.14), 1.005],
    [gas(0.05, 13.3, 8, 0.54), 1.026],
    [gas(0.01, 15.5, 8, 0.1), 1.003],
    [gas(0.01, 15.8, 10, 0.01), 0.999],
    [gas(0.03, 14.4, 20, 1.49), 1.07],
    [gas(7.83, 9.8, 420, 0.02), 0.777],
    [gas(0.02, 10.9, 7, 5.63), 1.36],
  ])('%o', (reading, printed) => {
    // The instruments cut off after the third decimal.
    expect(Math.floor(lambdaOf(reading, E0)! * 1000 + 1e-9) / 1000).toBeCloseTo(printed, 2)
    expect(Math.abs(lambdaOf(reading, E0)! - printed)).toBeLessThan(0.0015)
  })

  const text = referenceText('lambda-inspection-sample.csv')
  const rows = text
    .split('\n')
    .filter((l) => /^\d+,[ABC],/.test(l))
    .map((l) => l.split(','))
    .map(([, group, co, hc, co2, o2, printed]) => ({
      group,
      gas: gas(Number(co), Number(co2), Number(hc), Number(o2)),
      printed: Number(printed),
    }))
  const within = (group: string, ok: (gap: number) => boolean) => {
    const of = rows.filter((r) => r.group === group)
    expect(of.length).toBeGreaterThan(100)
    return of.filter((r) => ok(lambdaOf(r.gas, E0)! - r.printed)).length / of.length
  }
  test('group A: 98 % within 0.0005 +/- 0.0006, all within 0.0015', () => {
    expect(within('A', (gap) => Math.abs(gap - 0.0005) <= 0.0006)).toBeGreaterThanOrEqual(0.98)
    expect(within('A', (gap) => Math.abs(gap) <= 0.0015)).toBe(1)
  })
  test('group B: 99 %, group C: 95 % within 0.005', () => {
    expect(within('B', (gap) => Math.abs(gap) <= 0.005)).toBeGreaterThanOrEqual(0.99)
    expect(within('C', (gap) => Math.abs(gap) <= 0.005)).toBeGreaterThanOrEqual(0.95)
  })
})

describe('limits of the algebra (exact)', () => {
  test.each(Object.entries(FUEL_RATIOS))(
    '%s: complete combustion is 1, dilution changes nothing',
    (_, fuel) => {
      expect(lambdaOf(gas(0, 14, 0, 0), fuel)).toBeCloseTo(1, 12)
      const whole = lambdaOf(gas(1, 13, 200, 1), fuel)!
      expect(lambdaOf(gas(0.5, 6.5, 100, 0.5), fuel)).toBeCloseTo(whole, 12)
    },
  )
  test('slope with oxygen: 0.046858 a % at 15 % CO2', () => {
    expect(lambdaOf(gas(0, 15, 0, 1), E0)! - 1).toBeCloseTo(0.046858, 6)
  })
  test('no CO2: undefined', () => expect(lambdaOf(gas(0, 0, 0, 20.9), E0)).toBeUndefined())
})

describe('forward balance, then the formula (tolerance 1e-7)', () => {
  const text = referenceText('lambda-forward-model.csv')
  const rows = text
    .split('\n')
    .filter((l) => /^[a-zA-Z]\w*,\d/.test(l))
    .map((l) => l.split(',').map(Number))
  test('every composition gives its lambda back, and its carbon balances', () => {
    expect(rows.length).toBe(50)
    for (const [, hydrogen, oxygen, , co, co2, hc, o2, lambda] of rows as number[][]) {
      const reading = gas(co!, co2!, hc!, o2!)
      const fuel = { hydrogen: hydrogen!, oxygen: oxygen! }
      expect(lambdaOf(reading, fuel)).toBeCloseTo(lambda!, 6)
      const carbon = co2! + co! + (6 * hc!) / 10000
      expect(Math.abs(expectedCarbonPct(reading, fuel)! / carbon - 1)).toBeLessThan(0.005)
    }
  })
})

test('complete-combustion CO2: petrol 15.749 %, LPG 14.018 %, natural gas 11.737 %', () => {
  for (const [fuel, co2] of [
    [E0, 15.749],
    [FUEL_RATIOS.LPG, 14.018],
    [FUEL_RATIOS.CNG, 11.737],
  ] as const) {
    expect(expectedCarbonPct(gas(0, co2, 0, 0), fuel)).toBeCloseTo(co2, 3)
  }
})

test('uncertainty: oxygen alone moves lambda by its slope', () => {
  expect(lambdaUncertainty(gas(0, 15, 0, 1), E0, gas(0, 0, 0, 0.1))).toBeCloseTo(0.0046858, 7)
})
