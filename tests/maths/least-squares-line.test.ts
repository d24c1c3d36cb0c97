import { expect, test } from 'vitest'
import { leastSquaresLine } from '../../src/maths/least-squares-line.ts'
import { referenceJson, relativeGap } from './reference-data.ts'

interface Linear {
  certified: { coefficients: string[]; standard_deviations: string[]; residual_sd: string }
  data: string[][]
}

test('NIST StRD Norris: certified coefficients, their standard deviations, residual standard deviation', () => {
  const norris = referenceJson<{ datasets: { Norris: Linear } }>('nist-strd-linear.json').datasets.Norris
  const line = leastSquaresLine(
    norris.data.map((r) => Number(r[1])),
    norris.data.map((r) => Number(r[0])),
  )!
  const { coefficients, standard_deviations: sds, residual_sd: residual } = norris.certified
  const pairs: [number, string][] = [
    [line.intercept, coefficients[0]!],
    [line.slope, coefficients[1]!],
    [line.interceptSd!, sds[0]!],
    [line.slopeSd!, sds[1]!],
    [line.residualSd!, residual],
  ]
  for (const [ours, certified] of pairs) expect(relativeGap(ours, Number(certified))).toBeLessThan(1e-9)
})

test('worked by hand: (0,1) (1,3) (2,4)', () => {
  const line = leastSquaresLine([0, 1, 2], [1, 3, 4])!
  expect(line.slope).toBeCloseTo(1.5, 12)
  expect(line.intercept).toBeCloseTo(7 / 6, 12)
  expect(line.residualSd).toBeCloseTo(Math.sqrt(1 / 6), 12)
})

test('edge cases', () => {
  expect(leastSquaresLine([1], [1])).toBeUndefined()
  expect(leastSquaresLine([1, 1], [1, 2])).toBeUndefined()
  expect(leastSquaresLine([1, 2], [1, 2])!.residualSd).toBeUndefined()
  expect(() => leastSquaresLine([1, 2], [1])).toThrow(RangeError)
})
