import { expect, test } from 'vitest'
import { turningPoints } from '../../src/metrics/turning-points.ts'

test('swings below the least are passed over', () => {
  expect(turningPoints([0, 3, 2.5, 4, -2, -1.8, -3, 1, 0], 0, 2)).toEqual([0, 3, 6, 7])
})
test('a flat signal turns nowhere', () => expect(turningPoints([1, 1.1, 0.9, 1], 0, 2)).toEqual([]))
