import { expect, test } from 'vitest'
import { makeRandom } from '../../src/maths/random.ts'
import { weightedLine } from '../../src/metrics/weighted-line.ts'

const x = Float64Array.from({ length: 80 }, (_, i) => i)

test('a straight line is read exactly, off its middle too', () => {
  const fit = weightedLine({ x, y: x.map((v) => 2 + 0.01 * v) }, { at: 70, floor: 1e-6 })!
  expect(fit.kv).toBeCloseTo(2.7, 12)
  expect(fit.slope).toBeCloseTo(0.01, 12)
})

test('a tenth of spikes has no say', () => {
  const random = makeRandom(3)
  const y = x.map((_, i) => 1.6 + 0.01 * random.gaussian() + (i % 10 === 4 ? 3 : 0))
  expect(Math.abs(weightedLine({ x, y }, { at: 40, floor: 0.01 })!.kv - 1.6)).toBeLessThan(0.005)
})

// A first-order random walk of memory r averages out less than independent noise, by sqrt((1 + r) / (1 - r)).
test('slow turbulence widens the uncertainty', () => {
  const random = makeRandom(4)
  const us = (memory: number) =>
    Array.from({ length: 200 }, () => {
      let v = 0
      const y = x.map(() => (v = memory * v + Math.sqrt(1 - memory ** 2) * random.gaussian()))
      return weightedLine({ x, y }, { at: 40, floor: 0.01 })!.u
    }).reduce((a, b) => a + b) / 200
  expect(us(0.7) / us(0)).toBeGreaterThan(1.5)
})

test('too few samples fix no line', () => {
  expect(
    weightedLine({ x: Float64Array.of(3), y: Float64Array.of(1) }, { at: 3, floor: 0.01 }),
  ).toBeUndefined()
})
