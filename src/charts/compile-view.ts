import type { View } from 'vega'
import type { ChartSpec } from './chart-plan.ts'

/**
 * A chart laid out without a screen, ready for `toCanvas` or `toSVG`; `finalize()` it after use.
 * Vega is loaded on the first call, so commands that draw nothing do not pay for it.
 */
export async function compileView(spec: ChartSpec): Promise<View> {
  const { makeView } = await import('./engine.ts')
  return makeView(spec)
}
