import { expect, test } from 'vitest'
import { thinLine } from '../../src/maths/thin-line.ts'

test('a short line comes back whole', () => {
  expect(thinLine([0, 1, 2], [5, 6, 7], 10)).toEqual({ x: [0, 1, 2], y: [5, 6, 7] })
})

test('a single sample spike survives thinning', () => {
  const x = Float64Array.from({ length: 10_000 }, (_, i) => i)
  const y = new Float64Array(10_000)
  y[4321] = 9
  y[7777] = -3
  const thin = thinLine(x, y, 100)
  expect(thin.x.length).toBeLessThanOrEqual(202)
  expect(thin.y[thin.x.indexOf(4321)]).toBe(9)
  expect(thin.y[thin.x.indexOf(7777)]).toBe(-3)
  expect([...thin.x].sort((a, b) => a - b)).toEqual(thin.x)
})
