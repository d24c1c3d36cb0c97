import { expect, test } from 'vitest'
import { climbOf } from '../../src/metrics/climb-of.ts'
import { firingVoltageKv, isUnderSampled } from '../../src/metrics/firing-voltage.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { mean } from '../../src/maths/mean-sd.ts'
import { eventOf, HEALTHY, present, waveOf } from './analytic-wave.ts'

/** Events whose breakdown falls anywhere between two samples. Truth: HEALTHY.firingKv. */
function trial(sampleS: number, seed: number) {
  const random = makeRandom(seed)
  const waves = Array.from({ length: 200 }, () =>
    waveOf({ ...HEALTHY, sampleS, phase: random.uniform() }, random),
  )
  const climb = climbOf(waves.map((w) => eventOf(w)))
  return {
    raw: waves.map((w) => w.kv[w.peak]! - HEALTHY.firingKv),
    found: waves.map((w) => present(firingVoltageKv(w, { flags: [], climb }))),
  }
}

test.each([
  [1e-6, 0.01],
  [2e-6, 0.02],
  [4e-6, 0.025],
])('sampling loss at %d s is corrected on the average', (sampleS, left) => {
  const { raw, found } = trial(sampleS, 9)
  const errors = found.map((f) => f.value - HEALTHY.firingKv)
  // Without correction the loss is one-sided and several times larger.
  expect(mean(raw)!).toBeLessThan(-0.25 * sampleS * 1e6 * HEALTHY.climbKvPerUs)
  expect(Math.abs(mean(errors)!)).toBeLessThan(left * HEALTHY.firingKv)
  const within = found.filter((f) => Math.abs(f.value - HEALTHY.firingKv) < 1.96 * f.u).length / found.length
  expect(within).toBeGreaterThan(0.93)
})

test('a slow recorder: flagged, and no voltage stated, since the highest sample is a lower bound alone', () => {
  const random = makeRandom(10)
  const waves = Array.from({ length: 50 }, () =>
    waveOf({ ...HEALTHY, sampleS: 8e-6, phase: random.uniform() }, random),
  )
  const climb = climbOf(waves.map((w) => eventOf(w)))
  for (const wave of waves) {
    expect(isUnderSampled(wave)).toBe(true)
    expect(wave.kv[wave.peak]!).toBeLessThan(HEALTHY.firingKv)
    expect(firingVoltageKv(wave, { flags: ['under_sampled'], climb })).toEqual({
      ok: false,
      why: 'under-sampled',
    })
  }
  expect(isUnderSampled(waveOf(HEALTHY))).toBe(false)
})

test('slower than the whole climb: absent, not guessed', () => {
  const climb = { gain: undefined, collapseShare: 0.1 }
  expect(firingVoltageKv(waveOf({ ...HEALTHY, sampleS: 5e-5 }), { flags: [], climb })).toEqual({
    ok: false,
    why: 'under-sampled',
  })
})

test('clipped and cut events have none', () => {
  const climb = { gain: undefined, collapseShare: 0.1 }
  expect(firingVoltageKv(waveOf(HEALTHY), { flags: ['clipped'], climb })).toEqual({
    ok: false,
    why: 'clipped',
  })
  expect(firingVoltageKv(waveOf(HEALTHY), { flags: ['partial'], climb })).toEqual({
    ok: false,
    why: 'partial',
  })
})

// A climb that slows down: 12 kV (1 - exp(-t / 10 us)) gains less and less. Truth in closed form.
test('a climb that slows down is not carried on at its last slope', () => {
  const random = makeRandom(12)
  const slow = (firingKv: number, phase: number) => {
    const wave = waveOf({ ...HEALTHY, sampleS: 4e-6, phase, firingKv })
    const kv = wave.kv.slice()
    const atUs = -10 * Math.log(1 - firingKv / 12)
    for (let i = 0; i <= wave.breakdown; i++) {
      const us = atUs + (i - wave.breakdown) * 4
      if (us > -50) kv[i] = us > 0 ? 12 * (1 - Math.exp(-us / 10)) : 0
    }
    let peak = Math.floor(wave.breakdown) - 2
    for (let i = peak; i < wave.breakdown + 3; i++) if (kv[i]! > kv[peak]!) peak = i
    return { wave: { ...wave, kv, peak }, firingKv }
  }
  const made = Array.from({ length: 150 }, () => slow(8 + 1.5 * random.uniform(), random.uniform()))
  const climb = climbOf(made.map((m) => eventOf(m.wave)))
  expect(climb.gain!.slope).toBeLessThan(-0.2)
  const figures = made.map((m) => ({
    ...present(firingVoltageKv(m.wave, { flags: [], climb })),
    truth: m.firingKv,
  }))
  expect(Math.abs(mean(figures.map((f) => f.value - f.truth))!)).toBeLessThan(0.1)
  expect(
    figures.filter((f) => Math.abs(f.value - f.truth) < 1.96 * f.u).length / figures.length,
  ).toBeGreaterThan(0.93)
})

test('a recorder too slow to see the climb gives no value, however many samples a hump before it has', () => {
  const waves = Array.from({ length: 30 }, (_, i) =>
    waveOf({ ...HEALTHY, sampleS: 2e-5, phase: (i + 0.5) / 30 }),
  )
  const climb = climbOf(waves.map((w) => eventOf(w)))
  for (const wave of waves)
    expect(firingVoltageKv(wave, { flags: [], climb })).toEqual({ ok: false, why: 'under-sampled' })
})
