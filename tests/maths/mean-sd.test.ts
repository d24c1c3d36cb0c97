import { expect, test } from 'vitest'
import { lagOneAutocorrelation } from '../../src/maths/autocorrelation.ts'
import { mean, standardDeviation, sum } from '../../src/maths/mean-sd.ts'
import { referenceJson, relativeGap } from './reference-data.ts'

interface Set {
  certified: { mean: string; sd_n_minus_1: string; autocorrelation_lag1: string }
  data: string[]
}

// NIST Statistical Reference Datasets, univariate, certified values; data made by their published recipe.
test.each([
  ['NumAcc1', [10000001, 10000003, 10000002], 10000002, 1],
  ['NumAcc2', recipe(1.2), 1.2, 0.1],
  ['NumAcc3', recipe(1000000.2), 1000000.2, 0.1],
  ['NumAcc4', recipe(10000000.2), 10000000.2, 0.1],
] as const)('NIST StRD %s', (name, data, itsMean, sd) => {
  expect(relativeGap(mean(data)!, itsMean)).toBeLessThan(1e-14)
  expect(relativeGap(standardDeviation(data)!, sd)).toBeLessThan(
    name === 'NumAcc4' ? 1e-7 : name === 'NumAcc3' ? 1e-8 : 1e-9,
  )
})

test('NIST StRD univariate files: mean, standard deviation, lag-1 autocorrelation', () => {
  const file = referenceJson<{ datasets: Record<string, Set> }>('nist-strd-univariate.json')
  const names = Object.keys(file.datasets)
  expect(names).toHaveLength(8)
  for (const name of names) {
    const { data, certified } = file.datasets[name]!
    const tolerance = name === 'NumAcc4' ? 1e-7 : name === 'NumAcc3' ? 1e-8 : 1e-9
    const values = data.map(Number)
    expect(relativeGap(mean(values)!, Number(certified.mean)), name).toBeLessThan(1e-9)
    expect(relativeGap(standardDeviation(values)!, Number(certified.sd_n_minus_1)), name).toBeLessThan(
      tolerance,
    )
    expect(
      relativeGap(lagOneAutocorrelation(values)!, Number(certified.autocorrelation_lag1)),
      name,
    ).toBeLessThan(tolerance)
  }
})

test('edge cases', () => {
  expect(mean([])).toBeUndefined()
  expect(standardDeviation([1])).toBeUndefined()
  expect(sum([1e16, 1, -1e16])).toBe(1)
})

/** 1001 values: the middle one, then 0.1 below and above it in turn (NumAcc2 to 4). */
function recipe(middle: number): number[] {
  const low = Number((middle - 0.1).toFixed(1))
  const high = Number((middle + 0.1).toFixed(1))
  return [middle, ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? low : high))]
}
