import type { Block, Laid } from '../blocks/block.ts'
import { heading } from '../blocks/heading.ts'
import type { Section } from '../pages/page-input.ts'
import type { Typeface } from '../text/typeface.ts'
import { breakPages, type Placement, type Shape } from './break-pages.ts'
import { fillPages } from './fill-pages.ts'

/** All blocks of a report measured and put on pages. */
export interface Layout {
  /** The same index in both: block and the section it belongs to. */
  laid: readonly Laid[]
  sectionOf: readonly number[]
  placements: readonly Placement[]
  /** Page on which each section begins, counted from 1, by its anchor. */
  pages: ReadonlyMap<string, number>
}

/** Measures every block of every section and breaks them into pages. */
export function layOut(
  sections: readonly Section[],
  room: { widthPt: number; heightPt: number },
  typeface: Typeface,
): Layout {
  const items = sections.flatMap(
    ({ title, anchor, level, type, above = [], blocks, tighter = [], newPage }, section) => {
      const measured = (chosen: readonly Block[]) =>
        [...above, heading(level, title, anchor), ...chosen].map((block) =>
          block.measure({ ...room, ...(type ? { type } : {}) }, typeface),
        )
      let laid = measured(blocks)
      for (const closer of tighter) {
        if (pagesOf(laid, room.heightPt) === 1) break
        laid = measured(closer)
      }
      return laid.map((one, i) => ({
        section,
        laid: i === 0 && newPage ? { ...one, shape: { ...one.shape, newPage } } : one,
      }))
    },
  )
  const placements = onFewestPages(
    items.map(({ laid }) => laid.shape),
    room.heightPt,
  )
  const sectionOf = items.map(({ section }) => section)
  const pages = new Map<string, number>()
  for (const { item, page } of placements) {
    const { anchor } = sections[sectionOf[item]!]!
    if (anchor !== undefined && !pages.has(anchor)) pages.set(anchor, page + 1)
  }
  return { laid: items.map(({ laid }) => laid), sectionOf, placements, pages }
}

/** White between blocks, as a share of what they ask for: roomy where it costs no page. */
const GAP_SHARES = [1, 0.85, 0.7, 0.55, 0.45, 0.35] as const

/**
 * Broken with the roomiest gaps that need no more pages than the tightest, then evened out down each page. What starts on
 * a page of its own has gaps of its own: a crowded annex does not crowd page one.
 */
function onFewestPages(shapes: readonly Shape[], pagePt: number): readonly Placement[] {
  const starts = shapes.flatMap(({ newPage }, i) => (i === 0 || newPage ? [i] : []))
  let pages = 0
  const placements = starts.flatMap((start, k) => {
    const part = onFewest(shapes.slice(start, starts[k + 1]), pagePt)
    const placed = part.map((each) => ({ ...each, item: each.item + start, page: each.page + pages }))
    pages += lastPage(part) + 1
    return placed
  })
  return fillPages(placements, shapes, pagePt)
}

function onFewest(shapes: readonly Shape[], pagePt: number): readonly Placement[] {
  const tries = GAP_SHARES.map((share) =>
    breakPages(
      shapes.map((shape) => ({ ...shape, gapPt: shape.gapPt * share })),
      pagePt,
    ),
  )
  const fewest = Math.min(...tries.map(lastPage))
  return tries.find((placements) => lastPage(placements) === fewest)!
}

const lastPage = (placements: readonly Placement[]): number => placements.at(-1)?.page ?? 0

const pagesOf = (laid: readonly Laid[], pagePt: number): number =>
  Math.max(
    ...breakPages(
      laid.map(({ shape }) => shape),
      pagePt,
    ).map(({ page }) => page),
  ) + 1
