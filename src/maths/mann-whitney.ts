import { normalCdf } from './normal.ts'
import { sorted } from './quantile.ts'

/** How far two samples lie apart by ranks. `greater`: the first sample tends to be larger. */
export interface RankTest {
  /** Number of pairs with first > second, ties counted as half. */
  u: number
  rankSum: number
  /** Standard deviation of u under no difference, corrected for ties. */
  sd: number
  pGreater: number
  pLess: number
  pTwoSided: number
  method: 'exact' | 'normal'
}

/** Above this many pairs the normal approximation is close enough and the exact count too slow. */
const MOST_EXACT_PAIRS = 2500

/**
 * Mann-Whitney (Wilcoxon rank-sum) test. Exact: counts every arrangement of the pooled midranks, ties included.
 * Normal: with the tie correction; with the continuity correction unless told otherwise.
 *
 * @returns undefined for an empty sample or where all values are equal
 * @source  Hollander and Wolfe 1999, Nonparametric Statistical Methods, ch. 4
 */
export function mannWhitney(
  first: ArrayLike<number>,
  second: ArrayLike<number>,
  {
    method = first.length * second.length <= MOST_EXACT_PAIRS ? 'exact' : 'normal',
    continuity = true,
  }: { method?: 'exact' | 'normal'; continuity?: boolean } = {},
): RankTest | undefined {
  const n = first.length
  const m = second.length
  if (n === 0 || m === 0) return undefined
  const ranks = midRanks(Float64Array.from([...Array.from(first), ...Array.from(second)]))
  let rankSum = 0
  for (let i = 0; i < n; i++) rankSum += ranks.of[i]!
  const u = rankSum - (n * (n + 1)) / 2
  const total = n + m
  const sd = Math.sqrt(((n * m) / 12) * (total + 1 - ranks.tieSum / (total * (total - 1))))
  if (!(sd > 0)) return undefined
  const tails =
    method === 'exact' ? exactTails(ranks.of, n, rankSum) : normalTails(u - (n * m) / 2, sd, continuity)
  return {
    u,
    rankSum,
    sd,
    ...tails,
    pTwoSided: Math.min(1, 2 * Math.min(tails.pGreater, tails.pLess)),
    method,
  }
}

/** Rank of every value, equal values sharing the mean of their ranks, and the sum of t^3 - t over ties. */
function midRanks(values: ArrayLike<number>): { of: Float64Array; tieSum: number } {
  const rising = sorted(values)
  const rankOf = new Map<number, number>()
  let tieSum = 0
  for (let from = 0; from < rising.length;) {
    let to = from
    while (to < rising.length && rising[to] === rising[from]) to++
    rankOf.set(rising[from]!, (from + 1 + to) / 2)
    tieSum += (to - from) ** 3 - (to - from)
    from = to
  }
  return { of: Float64Array.from(values, (v) => rankOf.get(v)!), tieSum }
}

function normalTails(off: number, sd: number, continuity: boolean): { pGreater: number; pLess: number } {
  const step = continuity ? 0.5 : 0
  return { pGreater: normalCdf(-(off - step) / sd), pLess: normalCdf((off + step) / sd) }
}

/** Shares of all choices of n ranks whose sum is at least, and at most, the one seen. Ranks doubled to stay whole. */
function exactTails(ranks: Float64Array, n: number, rankSum: number): { pGreater: number; pLess: number } {
  const doubled = Array.from(ranks, (r) => Math.round(2 * r))
  const most = doubled
    .toSorted((a, b) => b - a)
    .slice(0, n)
    .reduce((a, b) => a + b, 0)
  // shares[k][s]: share of choices of k of the ranks so far that sum to s, kept as chances to stay within range.
  const shares = Array.from({ length: n + 1 }, () => new Float64Array(most + 1))
  shares[0]![0] = 1
  doubled.forEach((rank, seen) => {
    for (let k = Math.min(n, seen + 1); k >= 1; k--) {
      const from = shares[k - 1]!
      const to = shares[k]!
      for (let s = most; s >= rank; s--) to[s]! += from[s - rank]!
    }
  })
  const last = shares[n]!
  const seen = Math.round(2 * rankSum)
  let all = 0,
    atLeast = 0,
    atMost = 0
  last.forEach((count, s) => {
    all += count
    if (s >= seen) atLeast += count
    if (s <= seen) atMost += count
  })
  return { pGreater: atLeast / all, pLess: atMost / all }
}
