import { expect, test } from 'vitest'
import { movingMean } from '../../src/maths/moving-mean.ts'

// By hand, from the definition: a width of 3 takes each sample and its two neighbours, one neighbour at the ends.
test('mean of a sample and its neighbours, fewer at the ends', () => {
  expect([...movingMean(Float64Array.of(3, 6, 9, 0, 30), 3)]).toEqual([4.5, 6, 5, 13, 15])
  expect([...movingMean(Float64Array.of(3, 6, 9), 1)]).toEqual([3, 6, 9])
  expect([...movingMean(Float64Array.of(2, 4), 9)]).toEqual([3, 3])
  expect([...movingMean(new Float64Array(0), 3)]).toEqual([])
})
