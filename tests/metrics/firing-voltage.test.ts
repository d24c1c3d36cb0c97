import { expect, test } from 'vitest'
import { climbOf } from '../../src/metrics/climb-of.ts'
import { firingVoltageKv, isUnderSampled } from '../../src/metrics/firing-voltage.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { mean } from '../../src/maths/mean-sd.ts'
import { eventOf, HEALTHY, present, waveOf } from './analytic-wave.ts'

/** Events whose breakdown falls anywhere between two samples. Truth: HEALTHY.firingKv. */
function trial(sampleS: number, seed: number) {
  const random = makeRandom(seed)
  const waves = Array.from({ length: 200 }, () => waveOf({ ...HEALTHY, sampleS, phase: random.uniform() }, random))
  const climb = climbOf(waves.map((w) => eventOf(w)))
  return {
    raw: waves.map((w) => w.kv[w.peak]! - HEALTHY.firingKv),
    found: waves.map((w) => present(firingVoltageKv(w, { flags: [], climb }))),
  }
}

test.each([[1e-6, 0.01], [2e-6, 0.02], [4e-6, 0.025]])('sampling loss at %d s is corrected on the average', (sampleS, left) => {
  const { raw, found } = trial(sampleS, 9)
  const errors = found.map((f) => f.value - HEALTHY.firingKv)
  // Without correction the loss is one-sided and several times larger.
  expect(mean(raw)!).toBeLessThan(-0.25 * sampleS * 1e6 * HEALTHY.climbKvPerUs)
  expect(Math.abs(mean(errors)!)).toBeLessThan(left * HEALTHY.firingKv)
  const within = found.filter((f) => Math.abs(f.value - HEALTHY.firingKv) < 1.96 * f.u).length / found.length
  expect(within).toBeGreaterThan(0.93)
})

test('a slow recorder: flagged, and u as wide as the error', () => {
  const { found } = trial(8e-6, 10)
  expect(isUnderSampled(waveOf({ ...HEALTHY, sampleS: 8e-6 }))).toBe(true)
  expect(isUnderSampled(waveOf(HEALTHY))).toBe(false)
  const within = found.filter((f) => Math.abs(f.value - HEALTHY.firingKv) < 1.96 * f.u).length / found.length
  expect(within).toBeGreaterThan(0.9)
  expect(mean(found.map((f) => f.u))!).toBeGreaterThan(1)
})

test('slower than the whole climb: absent, not guessed', () => {
  const climb = { stepKv: undefined, collapseShare: 0.1 }
  expect(firingVoltageKv(waveOf({ ...HEALTHY, sampleS: 5e-5 }), { flags: [], climb })).toEqual({ ok: false, why: 'under-sampled' })
})

test('clipped and cut events have none', () => {
  const climb = { stepKv: undefined, collapseShare: 0.1 }
  expect(firingVoltageKv(waveOf(HEALTHY), { flags: ['clipped'], climb })).toEqual({ ok: false, why: 'clipped' })
  expect(firingVoltageKv(waveOf(HEALTHY), { flags: ['partial'], climb })).toEqual({ ok: false, why: 'partial' })
})
