import { describe, expect, test } from 'vitest'
import { breakdownKv, relativeDensity } from '../../src/model/breakdown.ts'

const SEA_LEVEL = { pressureKpa: 101.325, temperatureK: 293 }

describe('breakdown of air in a uniform field', () => {
  // Meek and Craggs formula evaluated apart from this code, peak kV to three decimals.
  test.each([
    [0.5, 2.571],
    [0.6, 2.942],
    [0.8, 3.657],
    [1, 4.345],
    [2, 7.563],
    [5, 16.409],
    [10, 30.3],
  ])('%d mm at 101.325 kPa and 20 degC: %d kV', (gapMm, kv) => {
    expect(Math.abs(breakdownKv({ gapMm, ...SEA_LEVEL }) - kv)).toBeLessThan(1e-3 * kv)
  })

  // The same formula scaled by density, given to three figures.
  test.each([
    [1, 500, 550, 9.48],
    [1, 800, 600, 13.1],
    [0.8, 1000, 620, 12.8],
    [0.8, 1500, 700, 16.3],
    [0.8, 2000, 750, 19.7],
  ])('%d mm at %d kPa and %d K: about %d kV', (gapMm, pressureKpa, temperatureK, kv) => {
    expect(Math.abs(breakdownKv({ gapMm, pressureKpa, temperatureK }) - kv)).toBeLessThan(0.05)
  })

  // Outside values: sphere-gap tables 16.8-17.4 kV at 5 mm and 31.2-32.0 kV at 10 mm; the formula lies a few percent low.
  test.each([
    [5, 16.8, 17.4],
    [10, 31.2, 32],
  ])('%d mm within 5 %% of sphere-gap tables', (gapMm, low, high) => {
    const kv = breakdownKv({ gapMm, ...SEA_LEVEL })
    expect(kv).toBeGreaterThan(low * 0.95)
    expect(kv).toBeLessThan(high * 1.05)
  })

  test('relative density is 1 at 101.325 kPa and 20 degC, and falls with heat (IEC 60052)', () => {
    expect(relativeDensity(SEA_LEVEL)).toBe(1)
    expect(relativeDensity({ pressureKpa: 202.65, temperatureK: 586 })).toBeCloseTo(1, 12)
  })
})
