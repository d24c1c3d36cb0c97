/**
 * Chances of the Mann-Whitney count u = 0 .. n m under no difference and no ties.
 * @returns shape (n m + 1), sums to 1
 * @source  Mann and Whitney 1947, Annals of Mathematical Statistics 18(1), 50-60: the counts are the coefficients of
 *          the product of (1 - x^(m+k)) / (1 - x^k), k = 1 .. n
 */
export function rankCountChances(n: number, m: number): Float64Array {
  const chances = new Float64Array(n * m + 1)
  chances[0] = 1
  for (let k = 1; k <= n; k++) {
    for (let u = chances.length - 1; u >= m + k; u--) chances[u]! -= chances[u - m - k]!
    for (let u = k; u < chances.length; u++) chances[u]! += chances[u - k]!
    // Divided as it goes by the number of arrangements, so that nothing overflows.
    for (let u = 0; u < chances.length; u++) chances[u]! *= k / (m + k)
  }
  return chances
}

/**
 * Chances of the signed-rank sum w = 0 .. n(n+1)/2 under symmetry about zero and no ties.
 * @returns shape (n(n+1)/2 + 1), sums to 1
 * @source  Hollander and Wolfe 1999, Nonparametric Statistical Methods, 3.1
 */
export function signedRankChances(n: number): Float64Array {
  const chances = new Float64Array((n * (n + 1)) / 2 + 1)
  chances[0] = 1
  for (let rank = 1; rank <= n; rank++) {
    for (let w = chances.length - 1; w >= 0; w--)
      chances[w] = (chances[w]! + (w >= rank ? chances[w - rank]! : 0)) / 2
  }
  return chances
}

/** Largest count C whose lower tail P(X <= C - 1) stays within the share; 0 where even P(X <= 0) does not. */
export function lowerRank(chances: ArrayLike<number>, tail: number): number {
  let below = 0
  for (let count = 0; count < chances.length; count++) {
    below += chances[count]!
    if (below > tail) return count
  }
  return chances.length
}
