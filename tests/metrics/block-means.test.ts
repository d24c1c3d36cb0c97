import { expect, test } from 'vitest'
import { blockMeans } from '../../src/metrics/block-means.ts'

test('five points in at most two blocks', () => {
  const { x, y } = blockMeans({ x: [0, 1, 2, 3, 4], y: [1, 2, 6, 4, 8] }, 2)
  expect([...x]).toEqual([1, 3.5])
  expect([...y]).toEqual([3, 6])
})
test('few points pass unchanged', () =>
  expect([...blockMeans({ x: [5, 7], y: [1, 2] }, 9).y]).toEqual([1, 2]))
