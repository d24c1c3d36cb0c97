import { expect, test } from 'vitest'
import { coilRing } from '../../src/metrics/coil-ring.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { referenceJson } from '../maths/reference-data.ts'
import { HEALTHY, present, waveOf } from './analytic-wave.ts'

// Closed form: 2.4 kHz, decrement 0.6 a cycle from 2 kV: half swings 2 (1 + e^-0.3) e^(-0.3 k), above 0.3 kV for k < 8.2.
test('cycles, frequency and decrement of a made ring', () => {
  const ring = coilRing(waveOf(HEALTHY, makeRandom(2)), [])
  expect(present(ring.cycles).value).toBe(4.5)
  expect(Math.abs(present(ring.khz).value / 2.4 - 1)).toBeLessThan(0.005)
  expect(Math.abs(present(ring.damping).value / 0.6 - 1)).toBeLessThan(0.05)
})

test('a slow return to rest is not counted as a swing', () => {
  const wave = waveOf({ ...HEALTHY, ring: { khz: 3, decrement: 3, kv: 0.5 } })
  const from = Math.floor(wave.sparkEnd!)
  const kv = wave.kv.map((v, i) => (i > from ? v + 0.9 * Math.exp(-(i - from) / 800) : v))
  expect(present(coilRing({ ...wave, kv }, []).cycles).value).toBeLessThanOrEqual(1.5)
})

test('no oscillations: cycles 0, no frequency', () => {
  const ring = coilRing(
    waveOf({ ...HEALTHY, ring: { khz: 2.4, decrement: 0.6, kv: 0.05 } }, makeRandom(3)),
    [],
  )
  expect(present(ring.cycles).value).toBeLessThanOrEqual(0.5)
  expect(ring.khz).toEqual({ ok: false, why: 'not-visible' })
})

test('barred', () => {
  expect(coilRing(waveOf(HEALTHY), ['partial']).cycles).toEqual({ ok: false, why: 'partial' })
  expect(coilRing({ ...waveOf(HEALTHY), sparkEnd: undefined }, []).khz).toEqual({
    ok: false,
    why: 'no-spark-line',
  })
})

// Series R-L-C ring-downs in closed form, sampled at 2 MHz: 0.5 % on frequency and decrement.
test('closed-form ring-downs', () => {
  const file = referenceJson<{ cases: { fd_hz: number; alpha_per_s: number; log_decrement: number }[] }>(
    'damped-ring.json',
  )
  const cases = file.cases.filter((c) => c.log_decrement < 1)
  expect(cases).toHaveLength(2)
  for (const { fd_hz: fd, alpha_per_s: alpha, log_decrement: expected } of cases) {
    const kv = Float64Array.from(
      { length: 6000 },
      (_, i) => 5 * Math.exp(-alpha * i * 5e-7) * Math.cos(2 * Math.PI * fd * i * 5e-7),
    )
    const ring = coilRing({ ...waveOf(HEALTHY), kv, sampleS: 5e-7, breakdown: -2, peak: 0, sparkEnd: 0 }, [])
    expect(Math.abs(present(ring.khz).value / (fd / 1000) - 1)).toBeLessThan(0.005)
    expect(Math.abs(present(ring.damping).value / expected - 1)).toBeLessThan(0.005)
  }
})

test('a pickup of unknown ratio: counted against the height of its own line, not in kV', () => {
  const wave = waveOf(HEALTHY, makeRandom(2))
  const volts = {
    ...wave,
    kv: wave.kv.map((v) => v / 1000),
    noiseKv: wave.noiseKv / 1000,
    quantumKv: wave.quantumKv / 1000,
  }
  expect(present(coilRing(volts, []).cycles).value).toBe(0)
  const counted = present(coilRing({ ...volts, ratioUnknown: true }, []).cycles).value
  expect(Math.abs(counted - present(coilRing(wave, []).cycles).value)).toBeLessThanOrEqual(1)
})
