import { expect, test } from 'vitest'
import { energyMj } from '../../src/metrics/energy.ts'
import { sparkLineOf, type SparkLine } from '../../src/metrics/spark-line.ts'
import { HEALTHY, present, waveOf } from './analytic-wave.ts'

// Closed form: E = T I0 (V0/2 + (V1 - V0)/6) for a linear voltage and a current that dies linearly; 0.2 % by samples.
test.each([
  { v0: 1200, v1: 1800, i0: 0.06, burnMs: 1.5, expected: 63 },
  { v0: 1500, v1: 1500, i0: 0.06, burnMs: 1.5, expected: 67.5 },
  { v0: 600, v1: 600, i0: 0.05, burnMs: 1.2, expected: 18 },
  { v0: 2000, v1: 1000, i0: 0.08, burnMs: 1, expected: 66.6667 },
])('$v0 to $v1 V, $i0 A, $burnMs ms', ({ v0, v1, i0, burnMs, expected }) => {
  const shape = {
    ...HEALTHY,
    sampleS: 1e-6,
    burnMs,
    line: (s: number) => (v0 + (v1 - v0) * s) / 1000,
    firingKv: v0 / 1000,
  }
  const line = sparkLineOf(waveOf(shape), []) as SparkLine
  const ampere = line.wave.kv.map((_, i) => Math.max(0, i0 * (1 - (i - line.from) / (line.to - line.from))))
  expect(Math.abs(present(energyMj(line, { ampere, noiseA: 0 })).value / expected - 1)).toBeLessThan(0.002)
})
test('never guessed', () => {
  expect(energyMj(sparkLineOf(waveOf(HEALTHY), []) as SparkLine, undefined)).toEqual({
    ok: false,
    why: 'not-recorded',
  })
})
