import { expect, test } from 'vitest'
import { roughnessKv } from '../../src/metrics/roughness.ts'
import { sparkLineOf, type SparkLine } from '../../src/metrics/spark-line.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { HEALTHY, present, waveOf } from './analytic-wave.ts'

const of = (shape: typeof HEALTHY, seed?: number) =>
  present(
    roughnessKv(
      sparkLineOf(waveOf(shape, seed === undefined ? undefined : makeRandom(seed)), []) as SparkLine,
    ),
  )

// A sine of 50 V has an rms of 35.4 V; one of many waves over the burn has no slope.
test('a fast ripple on a straight line', () => {
  const rippled = { ...HEALTHY, line: (s: number) => 1.8 - 0.2 * s + 0.05 * Math.sin(2 * Math.PI * 80 * s) }
  expect(Math.abs(of(rippled).value - 0.05 / Math.SQRT2)).toBeLessThan(0.001)
})
test('nothing but noise', () => {
  const plain = of({ ...HEALTHY, line: () => 1.6, noiseKv: 0.02 }, 4)
  expect(Math.abs(plain.value - 0.02)).toBeLessThan(0.002)
  expect(plain.u).toBeGreaterThan(0)
})
