import { describe, expect, test } from 'vitest'
import { niceAxis } from '../../src/charts/nice-ticks.ts'
import { makeRandom } from '../../src/maths/random.ts'

describe('niceAxis', () => {
  test.each([
    [0, 3.9, { most: 5 }, [0, 1, 2, 3, 4], 0],
    [-34, 88, { most: 10 }, [-40, -20, 0, 20, 40, 60, 80, 100], 0],
    [0, 2.3, { most: 4, snug: true }, [0, 1, 2], 0],
    [0.1, 0.7, { most: 6 }, [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7], 1],
    [5, 5, { most: 5 }, [5, 6, 7, 8, 9, 10], 0],
  ] as const)('%d to %d with %o', (...[low, high, how, ticks, decimals]) => {
    expect(niceAxis(low, high, how)).toMatchObject({ ticks, decimals })
  })

  test('any range: held whole, evenly stepped by 1, 2 or 5 times a power of ten, not more steps than asked for but the two at the ends', () => {
    const random = makeRandom(3)
    for (let i = 0; i < 500; i += 1) {
      const low = 1000 * (random.uniform() - 0.5)
      const high = low + 10 ** (5 * random.uniform() - 2)
      const axis = niceAxis(low, high, { most: 6 })
      const step = axis.ticks[1]! - axis.ticks[0]!
      expect(axis.low).toBeLessThanOrEqual(low + 1e-9 * Math.abs(low))
      expect(axis.high).toBeGreaterThanOrEqual(high - 1e-9 * Math.abs(high))
      expect([1, 2, 5]).toContain(Number((step / 10 ** Math.floor(Math.log10(step) + 1e-9)).toFixed(6)))
      expect(axis.ticks.length).toBeLessThanOrEqual(6 + 2)
      expect(new Set(axis.ticks.map((t) => t.toFixed(axis.decimals))).size).toBe(axis.ticks.length)
    }
  })
})
