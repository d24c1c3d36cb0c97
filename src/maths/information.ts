/**
 * Entropy of a distribution, bits; 0 log 0 counts as 0.
 * @source Shannon 1948, A mathematical theory of communication, section 6: H = - sum p log2 p
 */
export const entropyBits = (shares: readonly number[]): number =>
  shares.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0)

/**
 * What a test tells on average about which state holds: the entropy before it less the mean entropy after, bits.
 * Never negative but for rounding.
 *
 * @param prior   share of each state, sum 1; not changed
 * @param chance  chance[outcome][state] of each outcome under each state; sums to 1 over the outcomes
 * @source Shannon 1948, section 12 (mutual information); Lindley 1956 for its use in choosing experiments
 */
export function expectedGainBits(prior: readonly number[], chance: readonly (readonly number[])[]): number {
  const after = chance.reduce((sum, under) => {
    const { total, shares } = updated(prior, under)
    return sum + (total > 0 ? total * entropyBits(shares) : 0)
  }, 0)
  return entropyBits(prior) - after
}

/** Shares after an outcome, and how likely the outcome was. @source Bayes' rule */
export function updated(
  prior: readonly number[],
  under: readonly number[],
): { total: number; shares: number[] } {
  const joint = prior.map((p, i) => p * under[i]!)
  const total = joint.reduce((sum, p) => sum + p, 0)
  return { total, shares: total > 0 ? joint.map((p) => p / total) : [...prior] }
}
