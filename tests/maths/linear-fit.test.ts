import { expect, test } from 'vitest'
import { prepareLinearFit } from '../../src/maths/linear-fit.ts'

const t = Float64Array.from({ length: 200 }, (_, i) => i / 100)

test('gives back the coefficients a sum was made of, and leaves nothing', () => {
  const columns = [t.map(() => 1), t, t.map((v) => Math.cos(7 * v)), t.map((v) => Math.exp(-v))]
  const made = [0.3, -1.2, 2.5, 0.7]
  const fit = prepareLinearFit(columns)!(
    t.map((_, i) => columns.reduce((sum, c, k) => sum + made[k]! * c[i]!, 0)),
  )
  made.forEach((c, k) => expect(fit.coefficients[k]).toBeCloseTo(c, 8))
  expect(fit.squares).toBeLessThan(1e-9)
})

test('what it leaves is what the columns cannot make', () => {
  // Over whole cycles sine and cosine are orthogonal: the sine's power stays (closed form, n/2).
  const n = 100
  const wave = (f: (x: number) => number) =>
    Float64Array.from({ length: n }, (_, i) => f((2 * Math.PI * 3 * i) / n))
  const fit = prepareLinearFit([wave(Math.cos)])!(wave(Math.sin))
  expect(fit.coefficients[0]).toBeCloseTo(0, 12)
  expect(fit.squares).toBeCloseTo(n / 2, 9)
})

test('columns that say the same twice give no fit', () => {
  expect(prepareLinearFit([t, t])).toBeUndefined()
})
