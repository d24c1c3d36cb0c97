import { describe, expect, test } from 'vitest'
import { entropyBits, expectedGainBits, updated } from '../../src/maths/information.ts'

/** Source of the formulas: Shannon 1948, sections 6 and 12; the figures are reckoned by hand. */
describe('entropy', () => {
  test.each([
    ['one certain state', [1, 0, 0], 0],
    ['a fair coin', [0.5, 0.5], 1],
    ['four alike', [0.25, 0.25, 0.25, 0.25], 2],
    // Shannon's own example of section 7: letters with 1/2, 1/4, 1/8, 1/8 need 7/4 bits
    ['a half, a quarter, two eighths', [0.5, 0.25, 0.125, 0.125], 1.75],
  ])('%s', (_, shares, bits) => expect(entropyBits(shares)).toBeCloseTo(bits, 12))
})

describe('expected gain', () => {
  test('a perfect test of a fair coin tells one bit', () => {
    expect(
      expectedGainBits(
        [0.5, 0.5],
        [
          [1, 0],
          [0, 1],
        ],
      ),
    ).toBeCloseTo(1, 12)
  })

  test('a test whose chances are the same in every state tells nothing', () => {
    expect(
      expectedGainBits(
        [0.2, 0.3, 0.5],
        [
          [0.7, 0.7, 0.7],
          [0.3, 0.3, 0.3],
        ],
      ),
    ).toBeCloseTo(0, 12)
  })

  test('a channel that errs once in ten: 1 - H(0.1) = 0.531004 bits', () => {
    // H(0.1) = -0.1 log2 0.1 - 0.9 log2 0.9 = 0.332193 + 0.136803 = 0.468996
    expect(
      expectedGainBits(
        [0.5, 0.5],
        [
          [0.9, 0.1],
          [0.1, 0.9],
        ],
      ),
    ).toBeCloseTo(0.531004, 6)
  })

  test('a smoke test of three causes, reckoned by hand', () => {
    // shares 0.5 0.25 0.25; found 0.8 0 0: found 0.4 (certain), not found 0.6 with 1/6, 5/12, 5/12
    // H before 1.5; after 0.6 (1/6 log2 6 + 5/6 log2 2.4) = 0.6 * (0.430827 + 1.052529) = 0.890013; gain 0.60999
    expect(
      expectedGainBits(
        [0.5, 0.25, 0.25],
        [
          [0.8, 0, 0],
          [0.2, 1, 1],
        ],
      ),
    ).toBeCloseTo(0.60999, 5)
  })

  test('an outcome that cannot happen leaves the shares alone', () => {
    expect(updated([0.4, 0.6], [0, 0])).toEqual({ total: 0, shares: [0.4, 0.6] })
  })
})
