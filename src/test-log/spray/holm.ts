/**
 * p-values corrected for having looked at several places (Holm): the chance of any false alarm stays below the level.
 *
 * @returns same order as given; each at most 1
 * @source  Holm 1979, Scandinavian Journal of Statistics 6, 65-70
 */
export function holm(pValues: readonly number[]): number[] {
  const order = pValues.map((_, i) => i).sort((a, b) => pValues[a]! - pValues[b]!)
  const adjusted = new Array<number>(pValues.length)
  let highest = 0
  order.forEach((at, rank) => {
    highest = Math.max(highest, Math.min(1, pValues[at]! * (pValues.length - rank)))
    adjusted[at] = highest
  })
  return adjusted
}
