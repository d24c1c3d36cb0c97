import { expect, test } from 'vitest'
import { lagOneAutocorrelation } from '../../src/maths/autocorrelation.ts'

// NIST Statistical Reference Datasets, NumAcc1: certified lag-1 autocorrelation -0.5. The other sets: mean-sd.test.ts.
test('NIST StRD NumAcc1', () =>
  expect(lagOneAutocorrelation([10000001, 10000003, 10000002])).toBeCloseTo(-0.5, 12))
test('constant or short series have none', () => {
  expect(lagOneAutocorrelation([2, 2, 2])).toBeUndefined()
  expect(lagOneAutocorrelation([2])).toBeUndefined()
})
