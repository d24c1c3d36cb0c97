import { expect, test } from 'vitest'
import { instrumentU } from '../../src/metrics/instrument.ts'

const instrument = { voltageUncertaintyPercent: 5, timeUncertaintyPpm: 100 }

// JCGM 100:2008, 4.3.3: a stated expanded uncertainty divided by its factor, here 2.
test('voltages feel the gain, times the clock, ratios and counts neither', () => {
  expect(instrumentU(10, 'kV', instrument)).toBeCloseTo(0.25, 12)
  expect(instrumentU(-2, 'kV', instrument)).toBeCloseTo(0.05, 12)
  expect(instrumentU(800, 'rpm', instrument)).toBeCloseTo(0.04, 12)
  expect(instrumentU(1.5, 'ms', instrument)).toBeCloseTo(7.5e-5, 12)
  expect(instrumentU(30, '%', instrument)).toBe(0)
  expect(instrumentU(4, 'cycles', instrument)).toBe(0)
  expect(instrumentU(2, 'kV/ms', instrument)).toBeGreaterThan(0.05)
})
