/**
 * Law of propagation: combined standard uncertainty of a figure from its inputs' uncertainties.
 *
 * @param sensitivity  change of the figure per unit of each input, shape (n)
 * @param u            standard uncertainty of each input, shape (n)
 * @param correlation  coefficient between inputs i and j; independent where not given
 * @source             JCGM 100:2008, 5.1.2 equation (10) and 5.2.2 equation (16)
 */
export function combineUncertainty(
  sensitivity: readonly number[],
  u: readonly number[],
  correlation: (i: number, j: number) => number = () => 0,
): number {
  let variance = 0
  for (let i = 0; i < u.length; i++) {
    const own = sensitivity[i]! * u[i]!
    variance += own * own
    for (let j = i + 1; j < u.length; j++) variance += 2 * own * sensitivity[j]! * u[j]! * correlation(i, j)
  }
  return Math.sqrt(Math.max(0, variance))
}

/** Standard uncertainty of a value known only to lie evenly within +/- half. @source JCGM 100:2008, 4.3.7 */
export const evenWithin = (half: number): number => half / Math.sqrt(3)
