import { expect, test } from 'vitest'
import { nextCrossing } from '../../src/maths/crossing.ts'

test('between samples, by a straight line', () => {
  expect(nextCrossing([0, 1, 3, 1], 2)).toEqual({ index: 1.5, rising: true })
  expect(nextCrossing([0, 1, 3, 1], 2, 2)).toEqual({ index: 2.5, rising: false })
})
test('none', () => expect(nextCrossing([0, 1, 0], 5)).toBeUndefined())
