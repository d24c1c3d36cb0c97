import { expect, test } from 'vitest'
import { mannWhitney } from '../../src/maths/mann-whitney.ts'

// SAS/STAT User's Guide, NPAR1WAY, example 'Exact Wilcoxon Two-Sample Test': 13 and 6 values with ties.
const FIRST = [1.94, 1.94, 2.92, 2.92, 2.92, 2.92, 3.27, 3.27, 3.27, 3.27, 3.7, 3.7, 3.74]
const SECOND = [3.27, 3.27, 3.27, 3.7, 3.7, 3.74]

test('SAS example: rank sums, standard deviation, exact p', () => {
  const exact = mannWhitney(SECOND, FIRST)!
  expect(exact.method).toBe('exact')
  expect(exact.rankSum).toBe(79.5)
  expect(mannWhitney(FIRST, SECOND)!.rankSum).toBe(110.5)
  expect(exact.sd).toBeCloseTo(11.004784, 6)
  expect(exact.u).toBe(58.5)
  expect(exact.pGreater).toBeCloseTo(0.05270529264337314, 10)
  expect(exact.pTwoSided).toBeCloseTo(0.1054, 4)
})

test('SAS example: normal approximation without and with continuity', () => {
  const plain = mannWhitney(SECOND, FIRST, { method: 'normal', continuity: false })!
  expect((plain.u - 39) / plain.sd).toBeCloseTo(1.772, 3)
  expect(plain.pGreater).toBeCloseTo(0.0382, 4)
  expect(plain.pTwoSided).toBeCloseTo(0.0764, 4)
  expect(mannWhitney(SECOND, FIRST, { method: 'normal' })!.pTwoSided).toBeCloseTo(0.08425, 4)
})

// Hollander and Wolfe 1973, p. 69, permeability data (from memory; recomputed): U 35, p greater 0.1272.
test('permeability data', () => {
  const x = [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46]
  const y = [1.15, 0.88, 0.9, 0.74, 1.21]
  const result = mannWhitney(x, y)!
  expect(result.u).toBe(35)
  expect(result.pGreater).toBeCloseTo(0.1272, 4)
})

test('nothing to compare', () => {
  expect(mannWhitney([], [1])).toBeUndefined()
  expect(mannWhitney([2, 2], [2, 2])).toBeUndefined()
})
