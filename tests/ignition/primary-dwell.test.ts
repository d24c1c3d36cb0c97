import { describe, expect, test } from 'vitest'
import { makeRandom } from '../../src/maths/random.ts'
import { primaryDwellStart, type Primary } from '../../src/ignition/primary-dwell.ts'

const sampleS = 2e-6
const closesAt = 4000.4
const opensAt = 6000
const random = makeRandom(7)

/** Closed-form primary of a coil of 4 mH and 0.6 ohm on 12.5 V: i = V/R (1 - exp(-t R/L)), limited at 6.5 A. */
function currentA(i: number): number {
  const t = (i - closesAt) * sampleS
  const free = t <= 0 || i > opensAt ? 0 : (12.5 / 0.6) * (1 - Math.exp((-t * 0.6) / 4e-3))
  return Math.min(6.5, free) + 0.02 * random.gaussian()
}
const record = (f: (i: number) => number): Float64Array => Float64Array.from({ length: 8000 }, (_, i) => f(i))

describe('dwell start from the primary side', () => {
  test('current: foot of the climb within 20 us', () => {
    const primary: Primary = { data: record(currentA), carries: 'primary-current', sampleS }
    expect(Math.abs((primaryDwellStart(primary, opensAt + 10)! - closesAt) * sampleS)).toBeLessThan(20e-6)
  })
  test('current clamped the other way round: the same', () => {
    const primary: Primary = { data: record((i) => -currentA(i)), carries: 'primary-current', sampleS }
    expect(Math.abs((primaryDwellStart(primary, opensAt + 10)! - closesAt) * sampleS)).toBeLessThan(20e-6)
  })
  test('voltage: the closing of the switch to a sample, past the limiting of the current', () => {
    const limiting = 5500
    const data = record(
      (i) =>
        (i < closesAt ? 12.5 : i < limiting ? 0.8 : i < opensAt ? 8.6 : i < opensAt + 30 ? 60 : 14) +
        0.1 * random.gaussian(),
    )
    const start = primaryDwellStart({ data, carries: 'primary-voltage', sampleS }, opensAt + 20)!
    expect(Math.abs(start - closesAt)).toBeLessThanOrEqual(1)
  })
  test('a record that does not reach back to the closing shows none', () => {
    const data = record(currentA).slice(4700)
    expect(primaryDwellStart({ data, carries: 'primary-current', sampleS }, opensAt - 4700)).toBeUndefined()
  })
})
