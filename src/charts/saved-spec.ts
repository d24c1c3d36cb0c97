import { VEGA_LITE_SCHEMA, type ChartPlan } from './chart-plan.ts'

/**
 * The chart's specification as a file that any Vega tool opens, with its data in it: Vega-Lite, or plain Vega where panels
 * hold many lines and where a drawing is of our own. A chart laid out in points (the history's panels) has none.
 */
export function savedSpec({ spec }: ChartPlan): { ending: 'vl.json' | 'vg.json'; text: string } | undefined {
  const isLite = spec.$schema === VEGA_LITE_SCHEMA
  if (!isLite && !('scales' in spec)) return undefined
  return { ending: isLite ? 'vl.json' : 'vg.json', text: `${JSON.stringify(spec)}\n` }
}
