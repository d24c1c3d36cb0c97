import { expect, test } from 'vitest'
import { EARLY, LATE, partLine, type PartLine } from '../../src/metrics/slopes.ts'
import { sparkLineOf, type SparkLine } from '../../src/metrics/spark-line.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { HEALTHY, waveOf } from './analytic-wave.ts'

const bend = {
  ...HEALTHY,
  burnMs: 1.25,
  line: (s: number) => (s < 0.5 ? 1.8 - 0.5 * s : 1.55 + 0.75 * (s - 0.5)),
}
const lineOf = (seed?: number) =>
  sparkLineOf(waveOf(bend, seed === undefined ? undefined : makeRandom(seed)), []) as SparkLine

// Truth: -0.5 kV and +0.75 kV a burn of 1.25 ms.
test('early and late slope', () => {
  expect((partLine(lineOf(), EARLY) as PartLine).slope.value).toBeCloseTo(-0.4, 4)
  expect((partLine(lineOf(), LATE) as PartLine).slope.value).toBeCloseTo(0.6, 4)
})

test('u states the error', () => {
  let within = 0
  const runs = 200
  for (let run = 0; run < runs; run++) {
    const { slope } = partLine(lineOf(1000 + run), LATE) as PartLine
    if (Math.abs(slope.value - 0.6) < 1.96 * slope.u) within++
  }
  expect(within / runs).toBeGreaterThan(0.91)
})

test('too few samples', () => {
  const line = { ...lineOf(), from: 100, to: 108 }
  expect(partLine(line, EARLY)).toEqual({ ok: false, why: 'too-short' })
})
