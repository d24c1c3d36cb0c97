import { expect, test } from 'vitest'
import { conformanceProbability } from '../../src/maths/conformance.ts'
import { normalCdf } from '../../src/maths/normal.ts'

// JCGM 106:2012, clause 7: diode (upper limit -5.40 V) 0.92, container (lower limit 490 kPa) 0.99.
test('JCGM 106 clause 7', () => {
  expect(conformanceProbability({ value: -5.47, u: 0.05 }, { high: -5.4 })).toBeCloseTo(0.91924, 4)
  expect(conformanceProbability({ value: 509.7, u: 8.6 }, { low: 490 })).toBeCloseTo(0.98901, 4)
})

// JCGM 106:2012, clause 8: speed limit 100 km/h, u 2 % of the reading, 99.9 % sure: act above 106.6 km/h (printed 107).
test('JCGM 106 clause 8', () => {
  const breach = (kmh: number) => conformanceProbability({ value: kmh, u: 0.02 * kmh }, { low: 100 })
  expect(breach(106.5)).toBeLessThan(0.999)
  expect(breach(106.6)).toBeGreaterThan(0.999)
})

// ILAC-G8:09/2019: guard band of the expanded uncertainty (k = 2) leaves a false-accept risk of 2.275 %.
test('guard bands', () => {
  expect(1 - conformanceProbability({ value: 8, u: 1 }, { high: 10 })).toBeCloseTo(0.02275, 5)
  expect(normalCdf(-1.645)).toBeCloseTo(0.05, 4)
})

test('both limits', () =>
  expect(conformanceProbability({ value: 0, u: 1 }, { low: -1.96, high: 1.96 })).toBeCloseTo(0.95, 4))
