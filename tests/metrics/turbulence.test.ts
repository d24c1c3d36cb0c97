import { expect, test } from 'vitest'
import { mean } from '../../src/maths/mean-sd.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { sparkLevels } from '../../src/metrics/levels.ts'
import { sparkLineOf, type SparkLine } from '../../src/metrics/spark-line.ts'
import { turbulenceOf } from '../../src/metrics/turbulence.ts'
import { HEALTHY, present, waveOf } from './analytic-wave.ts'

/** A line with first-order turbulence (standard deviation 25 V, forgotten over the given time) over white noise of 14 V. */
function turbulent(memoryUs: number, seed: number): SparkLine {
  const random = makeRandom(seed)
  const wave = waveOf({ ...HEALTHY, phase: random.uniform() }, random)
  const keep = memoryUs > 0 ? Math.exp(-2 / memoryUs) : 0
  let level = 0
  const kv = wave.kv.map((v, i) => {
    level = keep * level + 0.025 * Math.sqrt(1 - keep * keep) * random.gaussian()
    return i > wave.breakdown && i < wave.sparkEnd! ? v + level : v
  })
  return sparkLineOf({ ...wave, kv }, []) as SparkLine
}

// Memory in closed form: the sum of autocorrelations of a first-order series is (1 + a) / (1 - a), diluted by the white part.
test.each([
  [0, 1],
  [14, 1 + ((2 * Math.exp(-2 / 14)) / (1 - Math.exp(-2 / 14))) * (625 / (625 + 196))],
])('memory of %d us', (memoryUs, truth) => {
  const seen = Array.from({ length: 60 }, (_, i) => turbulenceOf(turbulent(memoryUs, 10 + i), 0.014)!)
  expect(Math.abs(mean(seen.map((s) => s.memory))! - truth)).toBeLessThan(0.15 * truth + 0.3)
  expect(mean(seen.map((s) => s.sdKv))!).toBeCloseTo(Math.sqrt(0.025 ** 2 + 0.014 ** 2), 2)
})

test('levels of a turbulent line hold their truth in about 95 % of events', () => {
  const late = Array.from({ length: 400 }, (_, i) => present(sparkLevels(turbulent(14, 500 + i)).late))
  const held = late.filter((f) => Math.abs(f.value - HEALTHY.line(0.9)) < 1.96 * f.u).length / late.length
  expect(held).toBeGreaterThan(0.91)
  expect(held).toBeLessThan(0.99)
})
