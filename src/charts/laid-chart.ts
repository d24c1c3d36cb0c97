import type { View } from 'vega'
import type { ChartPlan } from './chart-plan.ts'
import { compileView } from './compile-view.ts'

/** A chart with the view that draws it; `finalize()` the view after use. */
export type LaidChart = ChartPlan & { view: View }

/** Sizes of a laid-out view without its padding; Vega tells them nowhere else. */
interface SizedView {
  _viewWidth: number
  _viewHeight: number
  padding(): { left: number; right: number; top: number; bottom: number }
}

/** Width and height with all that axes, headings and titles took. */
export function sizeOf(view: View): { widthPt: number; heightPt: number } {
  const sized = view as unknown as SizedView
  const { left, right, top, bottom } = sized.padding()
  return { widthPt: sized._viewWidth + left + right, heightPt: sized._viewHeight + top + bottom }
}

/** A chart laid out, with the size it came to: that of panels with shared axes is not known before. */
export async function layOutChart(plan: ChartPlan): Promise<LaidChart> {
  const view = plan.view ?? (await compileView(plan.spec))
  return { ...plan, view, ...sizeOf(view) }
}
