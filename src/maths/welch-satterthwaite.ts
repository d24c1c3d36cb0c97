/** One contribution to a combined uncertainty: standard uncertainty and its degrees of freedom (Infinity: known). */
export interface Contribution {
  u: number
  freedom: number
}

/**
 * Effective degrees of freedom of a combined standard uncertainty: u_c^4 / sum(u_i^4 / nu_i).
 *
 * @param parts  independent contributions, all in the figure's unit
 * @returns      Infinity where no contribution has finite degrees of freedom
 * @source       JCGM 100:2008, G.4.1, equation (G.2b)
 */
export function effectiveFreedom(parts: readonly Contribution[]): number {
  const combined = Math.hypot(...parts.map((part) => part.u))
  let divisor = 0
  for (const { u, freedom } of parts) divisor += u ** 4 / freedom
  return divisor === 0 ? Infinity : combined ** 4 / divisor
}
