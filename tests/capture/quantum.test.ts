import { describe, expect, test } from 'vitest'
import { smallestStep } from '../../src/capture/quantum.ts'
import { makeRandom } from '../../src/maths/random.ts'

/** A recorder of so many bits over a range, as a file prints it. */
function recorded(bits: number, rangeKv: number, decimals: number, count: number): Float32Array {
  const random = makeRandom(bits)
  const step = rangeKv / 2 ** bits
  return Float32Array.from({ length: count }, () =>
    Number((Math.round((random.gaussian() * rangeKv) / 10 / step) * step).toFixed(decimals)),
  )
}

describe('step of a recorder', () => {
  test.each([
    [8, 50, 4],
    [10, 40, 4],
    [12, 40, 5],
    [14, 40, 6],
  ])('%d bits over %d kV: range over two to the bits', (bits, rangeKv, decimals) => {
    const step = smallestStep(recorded(bits, rangeKv, decimals, 200_000))
    expect(Math.abs(step / (rangeKv / 2 ** bits) - 1)).toBeLessThan(0.01)
  })
  test('a ramp: every sample looked at is a level of its own', () => {
    expect(smallestStep(Float32Array.from({ length: 300_000 }, (_, i) => i / 1024))).toBe(1 / 1024)
  })
  test('no grid, too few levels, infinities and both zeros', () => {
    const random = makeRandom(5)
    expect(smallestStep(Float32Array.from({ length: 5000 }, () => random.gaussian()))).toBe(0)
    expect(smallestStep(Float32Array.of(0, 1, 1, 0, 0))).toBe(0)
    expect(smallestStep(Float32Array.of(-0, 0, 0.25, 0.5, 0.75, 1, Infinity, -Infinity))).toBe(0.25)
  })
})
