import { expect, test } from 'vitest'
import { invertRising } from '../../src/maths/invert.ts'

test('a cube root, from a bracket that holds it and one that does not', () => {
  expect(invertRising((x) => x ** 3, 8, { low: 0, high: 5 })).toBeCloseTo(2, 14)
  expect(invertRising((x) => x ** 3, -27, { low: 0, high: 1 })).toBeCloseTo(-3, 14)
})
