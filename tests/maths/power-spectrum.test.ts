import { expect, test } from 'vitest'
import { powerSpectrum } from '../../src/maths/power-spectrum.ts'
import { makeRandom } from '../../src/maths/random.ts'

/** The sum itself, term by term (the definition of a discrete Fourier transform). */
const direct = (values: Float64Array, size: number, k: number): number => {
  let [re, im] = [0, 0]
  values.forEach((v, i) => {
    re += v * Math.cos((2 * Math.PI * k * i) / size)
    im += v * Math.sin((2 * Math.PI * k * i) / size)
  })
  return re ** 2 + im ** 2
}

test.each([
  [1, 1],
  [5, 8],
  [100, 128],
  [100, 1024],
])('%i values in a transform of %i', (length, size) => {
  const random = makeRandom(length)
  const values = Float64Array.from({ length }, () => random.gaussian())
  const power = powerSpectrum(values, size)
  expect(power.length).toBe(Math.floor(size / 2) + 1)
  power.forEach((p, k) => expect(p).toBeCloseTo(direct(values, size, k), 8))
})

test('a size that is no power of two, or too small, is refused', () => {
  expect(() => powerSpectrum(new Float64Array(4), 6)).toThrow(RangeError)
  expect(() => powerSpectrum(new Float64Array(9), 8)).toThrow(RangeError)
})
