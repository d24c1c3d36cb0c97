import { compile, type TopLevelSpec } from 'vega-lite'
import * as vega from 'vega'
import { faceOf, widthOf } from './faces.ts'
import { VEGA_LITE_SCHEMA, type ChartSpec } from './chart-plan.ts'
import { part, templateOf, type Template } from './lite-template.ts'

interface TextItem {
  fontSize?: number
  fontWeight?: string | number
  limit?: number
}

/**
 * Width of a text item from the real font. Without it Vega guesses 0.8 em a letter: labels far apart, every second dropped.
 * Vega trims to `limit` with this very function, so it must not trim by itself.
 */
function textWidth(item: TextItem, text: unknown): number {
  const full = widthOf(String(text ?? '').trim(), item.fontSize ?? 11, faceOf(item.fontWeight))
  return item.limit !== undefined && item.limit > 0 ? Math.min(full, item.limit) : full
}

/** Vega's scene library is not in its typings; its text metrics are replaced once, when the engine loads. */
const { textMetrics } = vega as unknown as { textMetrics: { width: typeof textWidth } }
textMetrics.width = textWidth

/** A warning of the compiler is a fault of a spec of ours: thrown, never printed. */
const strictLogger = {
  level: () => strictLogger,
  error: (...args: unknown[]) => {
    throw new Error(`chart: ${args.join(' ')}`)
  },
  warn: (...args: unknown[]) => {
    throw new Error(`chart: ${args.join(' ')}`)
  },
  info: () => strictLogger,
  debug: () => strictLogger,
}

const isLite = (spec: ChartSpec): spec is TopLevelSpec => spec.$schema === VEGA_LITE_SCHEMA

/** A Vega spec as it is, a Vega-Lite spec compiled. @throws Error on any warning of the compiler. */
export function toVega(spec: ChartSpec): vega.Spec {
  if (!isLite(spec)) return spec
  const { kind, values } = part(spec)
  const template = templateFor(kind, values.length)
  return template ? template(values) : compileLite(spec)
}

/** The compiler itself, with nothing remembered. */
export const compileLite = (spec: TopLevelSpec): vega.Spec =>
  compile(spec, { logger: strictLogger as never }).spec

// Memo of a pure function: kinds of charts, compiled. A report has a handful, and shares them with the next one.
const templates = new Map<string, Template | undefined>()
const MOST_KINDS = 200

function templateFor(kind: TopLevelSpec, values: number): Template | undefined {
  const key = JSON.stringify(kind)
  if (templates.has(key)) return templates.get(key)
  if (templates.size >= MOST_KINDS) templates.clear()
  const template = templateOf(compileLite(kind), values)
  templates.set(key, template)
  return template
}

/** A view laid out and ready to draw; call `finalize()` when done with it. */
export async function makeView(spec: ChartSpec): Promise<vega.View> {
  const view = new vega.View(vega.parse(toVega(spec)), { renderer: 'none', logger: strictLogger as never })
  await view.runAsync()
  return view
}
