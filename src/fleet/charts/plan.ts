import type { ChartPlan } from '../../charts/chart-plan.ts'
import { drawingSpec, type Drawing } from '../../charts/drawing.ts'
import { FULL_WIDTH_PT } from '../../charts/theme.ts'

/** An empty drawing of full width. */
export const blank = (
  heightPt: number,
): { -readonly [K in keyof Drawing]: Drawing[K] extends readonly (infer T)[] ? T[] : Drawing[K] } => ({
  widthPt: FULL_WIDTH_PT,
  heightPt,
  bands: [],
  rules: [],
  paths: [],
  symbols: [],
  texts: [],
})

/** A drawing with its words as a chart. */
export const planOf = (id: string, drawing: Drawing, words: { title: string; alt: string }): ChartPlan => ({
  id,
  spec: { ...drawingSpec(drawing), description: words.alt },
  ...words,
  widthPt: drawing.widthPt,
  heightPt: drawing.heightPt,
  place: 'figures',
})

/** Text that must fit: shortened with an ellipsis, since the whole stands in fleet.csv. */
export function fitting(words: string, mostPt: number, width: (words: string) => number): string {
  if (width(words) <= mostPt) return words
  let short = words
  while (short !== '' && width(`${short}\u2026`) > mostPt) short = short.slice(0, -1)
  return `${short.trimEnd()}\u2026`
}
