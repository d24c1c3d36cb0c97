import type { Placement, Shape } from './break-pages.ts'

/** Most white that is spread over a page, as a share of its height: a page emptier than that ends where it ends. */
const MOST_SPREAD = 0.1
/** Most that is added to one gap, pt. */
const MOST_ADDED_PT = 10

/**
 * Spreads the white left at the foot of a page over the gaps between its blocks, so that the pages end alike.
 * A heading stays as near to what follows it as it was, and the last page ends where it ends.
 */
export function fillPages(
  placements: readonly Placement[],
  shapes: readonly Shape[],
  pagePt: number,
): readonly Placement[] {
  const last = placements.at(-1)?.page ?? 0
  return Array.from({ length: last + 1 }, (_, page) => placements.filter((p) => p.page === page)).flatMap(
    (onPage, page) => (page === last ? onPage : spread(onPage, shapes, pagePt)),
  )
}

function spread(
  onPage: readonly Placement[],
  shapes: readonly Shape[],
  pagePt: number,
): readonly Placement[] {
  const foot = Math.max(...onPage.map(({ yPt, heightPt }) => yPt + heightPt))
  const left = pagePt - foot
  const opens = onPage.map((_, i) => i > 0 && !shapes[onPage[i - 1]!.item]!.keepWithNext)
  const gaps = opens.filter(Boolean).length
  if (gaps === 0 || left > MOST_SPREAD * pagePt) return onPage
  const added = Math.min(MOST_ADDED_PT, Math.max(0, left) / gaps)
  let shift = 0
  return onPage.map((placement, i) => {
    if (opens[i]) shift += added
    return { ...placement, yPt: placement.yPt + shift }
  })
}
