import { expect, test } from 'vitest'
import { DISTRIBUTOR_COIL, limitReachedS } from '../../src/model/coil.ts'
import { dwellKv } from '../../src/model/dwell.ts'

const coil = DISTRIBUTOR_COIL

test('dwell starts with a step against the firing line and a ripple about it', () => {
  // The transformer's answer to the supply: turns ratio times coupling times supply.
  const stepKv = coil.turnsRatio * coil.coupling * coil.supplyV * 1e-3
  const firstMs = Array.from({ length: 400 }, (_, i) => dwellKv(coil, i * 1e-6))
  expect(dwellKv(coil, 0)).toBeCloseTo(0, 12)
  expect(Math.min(...firstMs)).toBeLessThan(-1.4 * stepKv)
  expect(Math.min(...firstMs)).toBeGreaterThan(-2 * stepKv)
})

test('the step shrinks as the current rises and is gone once the driver limits, after a hump', () => {
  const limitS = limitReachedS(coil)
  const settled = dwellKv(coil, limitS - 1e-6)
  // What the winding's resistance leaves of the supply: V - I R at the limit.
  expect(settled).toBeCloseTo(
    -coil.turnsRatio * coil.coupling * (coil.supplyV - coil.currentLimitA * coil.primaryOhm) * 1e-3,
    1,
  )
  const hump = Array.from({ length: 300 }, (_, i) => dwellKv(coil, limitS + i * 1e-6))
  expect(Math.max(...hump)).toBeGreaterThan(0.3)
  expect(Math.abs(dwellKv(coil, limitS + 1.5e-3))).toBeLessThan(0.01)
})
