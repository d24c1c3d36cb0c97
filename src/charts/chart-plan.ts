import type { Spec, View } from 'vega'
import type { TopLevelSpec } from 'vega-lite'

/** A chart by data: Vega-Lite for figures, plain Vega where hundreds of ready lines are drawn. Told apart by `$schema`. */
export type ChartSpec = TopLevelSpec | Spec

export interface ChartPlan {
  /** File name without ending, unique in a report. */
  id: string
  spec: ChartSpec
  /** Caption, and title of the SVG file. */
  title: string
  /** Full sentences for those who cannot see it, made from the chart's own figures. */
  alt: string
  widthPt: number
  heightPt: number
  /** The spec laid out, where it is drawn more than once; whoever laid it out finalizes it. */
  view?: View
  /** Tests whose sprays a trace shows; left out on any other chart. */
  marks?: readonly string[]
  place: 'customer' | 'figures' | 'tests' | 'before-after' | 'history'
}

export const VEGA_SCHEMA = 'https://vega.github.io/schema/vega/v6.json'
export const VEGA_LITE_SCHEMA = 'https://vega.github.io/schema/vega-lite/v6.json'
