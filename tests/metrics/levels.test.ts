import { expect, test } from 'vitest'
import { sparkLevels } from '../../src/metrics/levels.ts'
import { sparkLineOf, type SparkLine } from '../../src/metrics/spark-line.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { HEALTHY, present, waveOf, type WaveShape } from './analytic-wave.ts'

const levelsOf = (shape: WaveShape, seed?: number) =>
  sparkLevels(sparkLineOf(waveOf(shape, seed === undefined ? undefined : makeRandom(seed)), []) as SparkLine)

// Truth: the closed form of the line at 10, 50 and 90 %.
test.each([2e-7, 2e-6, 1e-5, 4e-5])(
  'sloping and bent line without noise, sampling interval %d s',
  (sampleS) => {
    const { start, mid, late } = levelsOf({ ...HEALTHY, sampleS })
    expect(Math.abs(present(start).value - HEALTHY.line(0.1))).toBeLessThan(0.002 * HEALTHY.line(0.1))
    expect(Math.abs(present(mid).value - HEALTHY.line(0.5))).toBeLessThan(0.002 * HEALTHY.line(0.5))
    expect(Math.abs(present(late).value - HEALTHY.line(0.9))).toBeLessThan(0.002 * HEALTHY.line(0.9))
  },
)

test('a steep straight line is read without bias at every point', () => {
  const steep = { ...HEALTHY, line: (s: number) => 3 - 2 * s }
  const { start, mid, late } = levelsOf(steep)
  expect(present(start).value).toBeCloseTo(2.8, 6)
  expect(present(mid).value).toBeCloseTo(2, 6)
  expect(present(late).value).toBeCloseTo(1.2, 6)
})

test('nothing after 92 % of the burn leaks in', () => {
  const hooked = { ...HEALTHY, line: (s: number) => (s > 0.925 ? 5 : 1.5) }
  expect(present(levelsOf(hooked).late).value).toBeCloseTo(1.5, 9)
})

test('a restrike spike within the window does not move the level', () => {
  const spiked = { ...HEALTHY, line: (s: number) => 1.6 + (s > 0.48 && s < 0.5 ? 4 : 0) }
  expect(Math.abs(present(levelsOf(spiked, 3).mid).value - 1.6)).toBeLessThan(0.01)
})

test('a coarse recorder with little noise still averages over its steps where the line slopes', () => {
  // Steps of 78 mV: 8 bits over 20 kV. The line falls by 1.4 kV, so that each window spans several steps.
  const coarse = { ...HEALTHY, quantumKv: 0.078, line: (s: number) => 3 - 1.4 * s }
  const { mid } = levelsOf(coarse, 5)
  expect(Math.abs(present(mid).value - 2.3)).toBeLessThan(0.02)
})

// The allowance for turbulence can only widen u, so that white noise alone is covered a little more often than 95 %.
test('u states the error: at least 95 % of errors within 1.96 u, over noise and rate', () => {
  let within = 0
  const runs = 300
  for (let run = 0; run < runs; run++) {
    const shape = {
      ...HEALTHY,
      noiseKv: [0.01, 0.03, 0.08][run % 3]!,
      sampleS: [2e-6, 5e-6, 1e-5][Math.floor(run / 3) % 3]!,
      phase: (run * 0.137) % 1,
    }
    const late = present(levelsOf(shape, 100 + run).late)
    if (Math.abs(late.value - shape.line(0.9)) < 1.96 * late.u) within++
  }
  expect(within / runs).toBeGreaterThan(0.94)
  expect(within / runs).toBeLessThan(0.995)
})

test('a line of too few samples has no levels', () => {
  expect(sparkLineOf(waveOf({ ...HEALTHY, sampleS: 2e-4 }), [])).toEqual({ ok: false, why: 'too-short' })
})
