import { describe, expect, test } from 'vitest'
import { DISTRIBUTOR_COIL, secondaryHenry } from '../../src/model/coil.ts'
import {
  coilRing,
  coilRingHz,
  dampedHz,
  firstExtremeS,
  resonanceHz,
  ringKv,
  visibleCycles,
} from '../../src/model/ring.ts'
import { referenceJson } from '../maths/reference-data.ts'

interface RingCase {
  L_h: number
  C_f: number
  log_decrement: number
  alpha_per_s: number
  positive_peaks: { t_s: number; v: number }[]
}

describe('ring of an inductor and a capacitor', () => {
  test('10 mH and 1 uF: 1591.55 Hz (textbook problem)', () =>
    expect(resonanceHz(0.01, 1e-6)).toBeCloseTo(1591.55, 2))
  // Closed form of the series ring, evaluated apart from this code: undamped frequency, decrement, damped frequency.
  test.each([
    [0.01, 1e-6, 0.631484, 1583.572],
    [0.003, 2.2e-7, 0.269277, 6189.416],
    [0.003, 2.2e-7, 0.676462, 6159.503],
    [0.003, 2.2e-7, 1.670238, 5987.17],
  ])('%d H and %d F with decrement %d ring at %d Hz', (henry, farad, decrement, hz) => {
    expect(Math.abs(dampedHz(resonanceHz(henry, farad), decrement) / hz - 1)).toBeLessThan(1e-6)
  })

  test('crests of reference rings (closed form, evaluated apart from this code)', () => {
    const { cases } = referenceJson<{ cases: RingCase[] }>('damped-ring.json')
    expect(cases.length).toBeGreaterThan(0)
    for (const c of cases) {
      const radPerS = 2 * Math.PI * dampedHz(resonanceHz(c.L_h, c.C_f), c.log_decrement)
      const ring = { alphaPerS: c.alpha_per_s, radPerS, cosKv: 1, sinKv: 0 }
      for (const peak of c.positive_peaks) expect(ringKv(ring, peak.t_s)).toBeCloseTo(peak.v, 8)
    }
  })
})

describe('ring of the coil after the spark', () => {
  const ring = coilRing(DISTRIBUTOR_COIL, 1.9, 1.2e-3)

  test('starts from the voltage of the line and rises as the current charges the winding', () => {
    expect(ringKv(ring, 0)).toBe(1.9)
    const slopeKvPerS = (ringKv(ring, 1e-9) - 1.9) / 1e-9
    expect(slopeKvPerS).toBeCloseTo(1.2e-3 / (DISTRIBUTOR_COIL.secondaryPf * 1e-12) / 1e3, -2)
    expect(firstExtremeS(ring)).toBeGreaterThan(10e-6)
    expect(firstExtremeS(ring)).toBeLessThan(60e-6)
  })

  test('loses exp(-decrement) a cycle at the damped frequency', () => {
    const crestS = firstExtremeS(ring)
    const nextKv = ringKv(ring, crestS + 1 / coilRingHz(DISTRIBUTOR_COIL))
    expect(Math.log(ringKv(ring, crestS) / nextKv)).toBeCloseTo(DISTRIBUTOR_COIL.decrement, 9)
    const undampedHz = resonanceHz(secondaryHenry(DISTRIBUTOR_COIL), DISTRIBUTOR_COIL.secondaryPf * 1e-12)
    expect(coilRingHz(DISTRIBUTOR_COIL)).toBeLessThan(undampedHz)
  })

  test('cycles counted from formula equal those counted on fine samples', () => {
    const extremes: number[] = []
    for (let i = 1; i < 40_000; i++) {
      const [a, b, c] = [ringKv(ring, (i - 1) * 1e-7), ringKv(ring, i * 1e-7), ringKv(ring, (i + 1) * 1e-7)]
      if ((b - a) * (c - b) < 0) extremes.push(b)
    }
    const swings = extremes.slice(1).filter((kv, i) => Math.abs(kv - extremes[i]!) > 0.3)
    expect(visibleCycles(ring, 0.3)).toBe(swings.length / 2)
  })
})
