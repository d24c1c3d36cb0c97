import { expect, test } from 'vitest'
import { fromKpa, isPressureUnit, toKpa } from '../../src/units/pressure.ts'
import { toPercentVol, toPpm } from '../../src/units/concentration.ts'

// Standard atmosphere: 101.325 kPa = 14.69595 psi = 1.01325 bar = 29.92126 inHg (ISO 2533; NIST SP 811)
test.each([
  ['psi', 14.69595],
  ['bar', 1.01325],
  ['inHg', 29.92126],
  ['kPa', 101.325],
] as const)('the standard atmosphere in %s', (unit, value) => {
  expect(toKpa(value, unit)).toBeCloseTo(101.325, 4)
  expect(fromKpa(101.325, unit)).toBeCloseTo(value, 4)
})

test('names of units', () => {
  expect([isPressureUnit('psi'), isPressureUnit('PSI'), isPressureUnit('toString')]).toEqual([
    true,
    false,
    false,
  ])
})

test('ppm and % by volume', () => {
  expect(toPercentVol(200, 'ppm')).toBe(0.02)
  expect(toPpm(0.02, '%vol')).toBe(200)
  expect([toPpm(7, 'ppm'), toPercentVol(7, '%')]).toEqual([7, 7])
})
