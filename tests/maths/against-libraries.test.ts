import fc from 'fast-check'
import {
  linearRegression,
  linearRegressionLine,
  medianAbsoluteDeviation,
  quantileSorted,
  sampleStandardDeviation,
  median as theirMedian,
} from 'simple-statistics'
import { describe, expect, test } from 'vitest'
import { hodgesLehmannLocation, hodgesLehmannShift } from '../../src/maths/hodges-lehmann.ts'
import { leastSquaresLine } from '../../src/maths/least-squares-line.ts'
import { mad } from '../../src/maths/mad.ts'
import { mannWhitney } from '../../src/maths/mann-whitney.ts'
import { standardDeviation } from '../../src/maths/mean-sd.ts'
import { median } from '../../src/maths/median.ts'
import { quantile, sorted } from '../../src/maths/quantile.ts'
import { robustLine } from '../../src/maths/robust-line.ts'
import { solveLinear } from '../../src/maths/solve-linear.ts'

// Inputs by fast-check, seeded, so that a failure comes again. The oracle is a library that is not ours, or the
// definition, worked out by counting everything.
const runs = (numRuns: number): fc.Parameters<unknown> => ({ numRuns, seed: 20_261 })
const figure = fc.integer({ min: -1_000_000, max: 1_000_000 }).map((k) => k / 1000)
const figures = (minLength: number, maxLength: number): fc.Arbitrary<number[]> =>
  fc.array(figure, { minLength, maxLength })
/** Figures with ties, as recorders write them. */
const steps = (minLength: number, maxLength: number): fc.Arbitrary<number[]> =>
  fc.array(
    fc.integer({ min: -20, max: 20 }).map((k) => k / 4),
    { minLength, maxLength },
  )
const share = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true })
const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true })

/** Every choice of n of n + m places, by the pairs in which a chosen one lies below: how often each count comes. */
const pairCounts = kept((n: number, m: number): number[] => {
  const counts = new Array<number>(n * m + 1).fill(0)
  for (let bits = 0; bits < 2 ** (n + m); bits++) {
    let [chosen, pairs] = [0, 0]
    for (let i = 0; i < n + m; i++) {
      if (bits & (1 << i)) chosen++
      else pairs += chosen
    }
    if (chosen === n) counts[pairs]!++
  }
  return counts
})
/** Every choice of signs of the ranks 1 to n: how often each sum of the positive ones comes. */
const signedSums = kept((n: number): number[] => {
  const counts = new Array<number>((n * (n + 1)) / 2 + 1).fill(0)
  for (let bits = 0; bits < 2 ** n; bits++) {
    let total = 0
    for (let i = 0; i < n; i++) if (bits & (1 << i)) total += i + 1
    counts[total]!++
  }
  return counts
})
/** Largest rank of which at most 2.5 % of all arrangements lie below. */
function rankOfTail(counts: readonly number[]): number {
  const all = counts.reduce((sum, c) => sum + c, 0)
  let below = 0
  for (let rank = 0; rank < counts.length; rank++) {
    below += counts[rank]!
    if (below > 0.025 * all) return rank
  }
  return counts.length
}
function kept<A extends number[]>(count: (...of: A) => number[]): (...of: A) => number[] {
  const known = new Map<string, number[]>()
  return (...of) => {
    const key = of.join(' ')
    if (!known.has(key)) known.set(key, count(...of))
    return known.get(key)!
  }
}

describe('order statistics and lines, against simple-statistics', () => {
  test('median, quantile, median absolute deviation, standard deviation', () => {
    fc.assert(
      fc.property(figures(1, 60), share, (values, p) => {
        expect(median(values)!).toBeCloseTo(theirMedian(values), 9)
        expect(mad(values)!).toBeCloseTo(medianAbsoluteDeviation(values), 9)
        const rising = [...sorted(values)]
        // Its quantiles are of another definition but at the ends and in the middle; there they have to agree.
        expect(quantile(values, 0)!).toBeCloseTo(quantileSorted(rising, 0), 12)
        expect(quantile(values, 1)!).toBeCloseTo(quantileSorted(rising, 1), 12)
        // Definition 7 of Hyndman and Fan, written out.
        const at = (values.length - 1) * p
        const low = rising[Math.floor(at)]!
        const high = rising[Math.ceil(at)]!
        expect(quantile(values, p)!).toBeCloseTo(low + (at - Math.floor(at)) * (high - low), 8)
        if (values.length > 1)
          expect(standardDeviation(values)!).toBeCloseTo(sampleStandardDeviation(values), 7)
      }),
      runs(4000),
    )
  })

  test('least-squares line', () => {
    const points = fc.array(fc.tuple(fc.integer({ min: -500, max: 500 }), figure), {
      minLength: 3,
      maxLength: 40,
    })
    fc.assert(
      fc.property(points, (pairs) => {
        fc.pre(new Set(pairs.map(([x]) => x)).size > 1)
        const ours = leastSquaresLine(
          pairs.map(([x]) => x),
          pairs.map(([, y]) => y),
        )!
        const theirs = linearRegression(pairs)
        const at = linearRegressionLine(theirs)
        for (const x of [-500, 0, 500])
          expect(Math.abs(ours.intercept + ours.slope * x - at(x))).toBeLessThan(1e-6 * (1 + Math.abs(at(x))))
      }),
      runs(3000),
    )
  })
})

describe('robust figures, by counting everything', () => {
  test('Theil-Sen: as many slopes above as below; moved, scaled and turned with the points', () => {
    const points = fc.array(fc.tuple(fc.integer({ min: 0, max: 60 }), figure), {
      minLength: 4,
      maxLength: 30,
    })
    fc.assert(
      fc.property(points, figure, between(0.1, 10), (pairs, up, scale) => {
        fc.pre(new Set(pairs.map(([x]) => x)).size > 1)
        const x = pairs.map(([at]) => at)
        const y = pairs.map(([, value]) => value)
        const line = robustLine(x, y)!
        const slopes = pairs.flatMap(([xa, ya], i) =>
          pairs.slice(i + 1).flatMap(([xb, yb]) => (xa === xb ? [] : [(yb - ya) / (xb - xa)])),
        )
        expect(line.slope).toBeCloseTo(theirMedian(slopes), 8)
        const moved = robustLine(
          x,
          y.map((v) => scale * v + up),
        )!
        expect(moved.slope).toBeCloseTo(scale * line.slope, 6)
        expect(moved.slopeLow).toBeCloseTo(scale * line.slopeLow, 6)
        const turned = robustLine(
          x,
          y.map((v) => -v),
        )!
        expect(turned.slopeLow).toBeCloseTo(-line.slopeHigh, 8)
      }),
      runs(2000),
    )
  })

  test('Hodges and Lehmann: the middle of every difference, the ends at ranks found by counting every arrangement', () => {
    fc.assert(
      fc.property(figures(2, 7), figures(2, 7), (a, b) => {
        const differences = b.flatMap((y) => a.map((x) => y - x)).toSorted((p, q) => p - q)
        const { shift, low, high } = hodgesLehmannShift(a, b)
        expect(shift).toBeCloseTo(theirMedian(differences), 9)
        const at = Math.max(1, rankOfTail(pairCounts(a.length, b.length)))
        expect(low).toBeCloseTo(differences[at - 1]!, 9)
        expect(high).toBeCloseTo(differences[differences.length - at]!, 9)
      }),
      runs(1500),
    )
    fc.assert(
      fc.property(figures(5, 11), (values) => {
        const means = values
          .flatMap((x, i) => values.slice(i).map((y) => (x + y) / 2))
          .toSorted((p, q) => p - q)
        const { location, low, high } = hodgesLehmannLocation(values)
        expect(location).toBeCloseTo(theirMedian(means), 9)
        const at = Math.max(1, rankOfTail(signedSums(values.length)))
        expect(low).toBeCloseTo(means[at - 1]!, 9)
        expect(high).toBeCloseTo(means[means.length - at]!, 9)
      }),
      runs(1000),
    )
  })

  test('Hodges and Lehmann beyond the exact ranks: the normal approximation of the rank, printed in Hollander and Wolfe', () => {
    fc.assert(
      fc.property(figures(60, 90), figures(60, 90), (a, b) => {
        const differences = b.flatMap((y) => a.map((x) => y - x)).toSorted((p, q) => p - q)
        const { low, high } = hodgesLehmannShift(a, b)
        const pairs = a.length * b.length
        const rank = Math.floor(
          (pairs + 1) / 2 - 1.959963984540054 * Math.sqrt((pairs * (a.length + b.length + 1)) / 12),
        )
        expect(low).toBeCloseTo(differences[rank - 1]!, 9)
        expect(high).toBeCloseTo(differences[pairs - rank]!, 9)
      }),
      runs(25),
    )
  })

  test('Mann and Whitney with ties: every choice of places counted', () => {
    fc.assert(
      fc.property(steps(2, 5), steps(2, 5), (a, b) => {
        const all = [...a, ...b]
        fc.pre(new Set(all).size > 1)
        const wins = (first: readonly number[], second: readonly number[]): number =>
          first.reduce((sum, x) => sum + second.reduce((s, y) => s + (x > y ? 1 : x === y ? 0.5 : 0), 0), 0)
        const seen = wins(a, b)
        let [greater, less, total] = [0, 0, 0]
        for (let bits = 0; bits < 2 ** all.length; bits++) {
          const chosen = all.filter((_, i) => bits & (1 << i))
          if (chosen.length !== a.length) continue
          const u = wins(
            chosen,
            all.filter((_, i) => !(bits & (1 << i))),
          )
          total++
          if (u >= seen - 1e-9) greater++
          if (u <= seen + 1e-9) less++
        }
        const ours = mannWhitney(a, b)!
        expect(ours.u).toBeCloseTo(seen, 9)
        expect(ours.pGreater).toBeCloseTo(greater / total, 9)
        expect(ours.pTwoSided).toBeCloseTo(Math.min(1, (2 * Math.min(greater, less)) / total), 9)
      }),
      runs(400),
    )
  })

  test('a square system: put in again, the answer gives the right side', () => {
    fc.assert(
      fc.property(figures(16, 16), figures(4, 4), (a, b) => {
        const x = solveLinear(Float64Array.from(a), Float64Array.from(b))
        fc.pre(x !== undefined && x.every((v) => Math.abs(v) < 1e6))
        for (let row = 0; row < 4; row++) {
          const side = x!.reduce((sum, v, k) => sum + a[row * 4 + k]! * v, 0)
          expect(Math.abs(side - b[row]!)).toBeLessThan(1e-5)
        }
      }),
      runs(2000),
    )
  })
})
