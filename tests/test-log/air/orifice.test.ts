import { expect, test } from 'vitest'
import {
  airFluxGpsPerMm2,
  criticalRatio,
  effectiveAreaMm2,
  flowFunction,
  holeDiameterMm,
  isChoked,
} from '../../../src/test-log/air/orifice.ts'
import { referenceText } from '../../maths/reference-data.ts'

test.each([
  [1.4, 0.528282, 1e-6],
  [1.3, 0.5457, 5e-5],
  [1.33, 0.5404, 5e-5],
  [1.35, 0.5369, 5e-5],
  [1.667, 0.4871, 5e-5],
])('critical ratio at %d (NASA Glenn mass-flow choking; computed)', (gamma, ratio, tolerance) => {
  expect(Math.abs(criticalRatio(gamma) - ratio)).toBeLessThan(tolerance)
})

test('ideal critical flow factor 0.684731 (ISO 9300, from memory)', () =>
  expect(Math.abs(flowFunction(0) - 0.684731)).toBeLessThan(1e-6))

test.each([
  [53.528, 0.239174],
  [80, 0.199458],
  [70, 0.224706],
  [60, 0.237012],
  [90, 0.154945],
  [95, 0.11922],
  [98, 0.087897],
  [100, 0.056091],
])('flux at %d kPa behind (Saint-Venant and Wantzel; Heywood app. C; relative 1e-4)', (kpa, flux) => {
  expect(Math.abs(airFluxGpsPerMm2(kpa) / flux - 1)).toBeLessThan(1e-4)
})

test('3 mm at 35 kPa: 1.69062 g/s; the same for any pressure below the critical', () => {
  const areaMm2 = (Math.PI * 9) / 4
  expect(areaMm2 * airFluxGpsPerMm2(35)).toBeCloseTo(1.69062, 4)
  expect(airFluxGpsPerMm2(10)).toBe(airFluxGpsPerMm2(50))
  // critical pressure for 101.325 kPa: 53.528 kPa, to 0.001
  expect([isChoked(53.527), isChoked(53.529)]).toEqual([true, false])
  expect(criticalRatio(1.4) * 101.325).toBeCloseTo(53.528, 3)
})

test('small drop: the flow of an incompressible fluid, Cd A sqrt(2 rho dp)', () => {
  const rho = 101325 / (287.05 * 293.15)
  for (const [kpa, share] of [
    [101.3, 2e-4],
    [101, 2e-3],
  ] as const) {
    const plain = Math.sqrt(2 * rho * (101.325 - kpa) * 1000) / 1000
    expect(Math.abs(airFluxGpsPerMm2(kpa) / plain - 1)).toBeLessThan(share)
  }
})

test('the whole chain: 0.7 g/s at 35 kPa (computed by hand, tolerance 0.1 %)', () => {
  const area = effectiveAreaMm2(0.7, 35)!
  expect(Math.abs(area / 2.9267 - 1)).toBeLessThan(1e-3)
  for (const [cd, mm] of [
    [1, 1.93],
    [0.6, 2.492],
    [0.85, 2.094],
  ] as const)
    expect(Math.abs(holeDiameterMm(area, cd) / mm - 1)).toBeLessThan(1e-3)
  expect(Math.abs((area * airFluxGpsPerMm2(60)) / 0.6937 - 1)).toBeLessThan(1e-3)
  expect(Math.abs((((area * airFluxGpsPerMm2(60)) / 14) * 100) / 4.955 - 1)).toBeLessThan(1e-3)
})

test('no drop, no hole', () => expect(effectiveAreaMm2(0.5, 101.325)).toBeUndefined())

const table = referenceText('orifice-flow.csv')
test('reference table (relative 1e-4)', () => {
  const rows = table
    .split('\n')
    .filter((l) => /^\d/.test(l))
    .map((l) => l.split(',').map(Number))
  expect(rows.length).toBeGreaterThan(15)
  for (const [kpa, , , , flux] of rows as number[][])
    expect(Math.abs(airFluxGpsPerMm2(kpa!) / flux! - 1)).toBeLessThan(1e-4)
})
