import { describe, expect, test } from 'vitest'
import {
  capacitorMj,
  DISTRIBUTOR_COIL,
  inductorMj,
  limitReachedS,
  PAIR_COIL,
  PLUG_TOP_COIL,
  primaryCurrentA,
  secondaryHenry,
  secondaryStartA,
} from '../../src/model/coil.ts'

describe('stored energy', () => {
  // 1/2 L I^2 and 1/2 C V^2, closed form.
  test.each([
    [5, 6, 90],
    [3, 7, 73.5],
  ])('%d mH at %d A: %d mJ', (mh, amps, mj) => expect(inductorMj(mh, amps)).toBe(mj))
  test.each([
    [50, 20, 10],
    [100, 10, 5],
  ])('%d pF at %d kV: %d mJ', (pf, kv, mj) => expect(capacitorMj(pf, kv)).toBeCloseTo(mj, 12))
})

describe('charging', () => {
  test('current follows (V/R)(1 - exp(-t R/L)) until the driver limits it', () => {
    const coil = { ...DISTRIBUTOR_COIL, primaryMh: 4, primaryOhm: 0.5, supplyV: 12, currentLimitA: 7 }
    // One time constant is 8 ms: 24 A * (1 - 1/e) = 15.17 A without a limit.
    expect(primaryCurrentA({ ...coil, currentLimitA: Infinity }, 8e-3)).toBeCloseTo(
      24 * (1 - Math.exp(-1)),
      12,
    )
    expect(primaryCurrentA(coil, 8e-3)).toBe(7)
    expect(primaryCurrentA(coil, limitReachedS(coil))).toBeCloseTo(7, 9)
    expect(limitReachedS({ ...coil, currentLimitA: 30 })).toBe(Infinity)
  })

  test.each([DISTRIBUTOR_COIL, PLUG_TOP_COIL, PAIR_COIL])(
    'what crosses over is the stated share of 1/2 L I^2',
    (coil) => {
      const startA = secondaryStartA(coil, 3.2e-3)
      const crossedMj = 0.5e3 * secondaryHenry(coil) * startA * startA
      expect(crossedMj).toBeCloseTo(
        coil.transfer * inductorMj(coil.primaryMh, primaryCurrentA(coil, 3.2e-3)),
        9,
      )
    },
  )
})
