import type { Spec } from 'vega'
import { VEGA_SCHEMA } from './chart-plan.ts'
import { FULL_WIDTH_PT, INK, SMALL_PT, TEXT_PT, VEGA_CONFIG } from './theme.ts'

/** How a line is drawn: told apart by weight and dash, so that it survives a grey print. */
export interface LineLook {
  stroke: string
  width: number
  dash: readonly number[]
  opacity: number
  /** How far the drawn line may pass a point it leaves out, pt. */
  tolerancePt: number
}

interface PathRow extends LineLook {
  role: string
  x: number
  y: number
  path: string
}
export interface RuleRow {
  role: string
  x: number
  y: number
  x2: number
  y2: number
  stroke: string
  width: number
  dash: readonly number[]
}
interface BandRow {
  role: string
  x: number
  y: number
  x2: number
  y2: number
  fill: string
}
interface SymbolRow {
  role: string
  x: number
  y: number
  shape: string
  size: number
  fill: string
  stroke: string
}
export interface TextRow {
  role: string
  x: number
  y: number
  text: string
  align: 'left' | 'center' | 'right'
  baseline: 'top' | 'middle' | 'bottom' | 'alphabetic'
  sizePt: number
  weight: number
  fill: string
  angle: number
}

/** A picture of many ready lines: every row in pt from the top left corner. */
export interface Drawing {
  widthPt: number
  heightPt: number
  bands: readonly BandRow[]
  rules: readonly RuleRow[]
  paths: readonly PathRow[]
  symbols: readonly SymbolRow[]
  texts: readonly TextRow[]
}

/** A text row with the usual looks; `at` overrides. */
export const text = (
  role: string,
  words: string,
  at: { x: number; y: number } & Partial<TextRow>,
): TextRow => ({
  align: 'left',
  baseline: 'middle',
  sizePt: TEXT_PT,
  weight: 400,
  fill: INK,
  angle: 0,
  ...at,
  role,
  text: words,
})

/** The same in small print. */
export const note = (role: string, words: string, at: { x: number; y: number } & Partial<TextRow>): TextRow =>
  text(role, words, { sizePt: SMALL_PT, ...at })

/** SVG knows no empty dash pattern: a solid line has none. */
const solidAsNull = <T extends { dash: readonly number[] }>(row: T) => ({
  ...row,
  dash: row.dash.length > 0 ? row.dash : null,
})

const field = (...names: string[]) => Object.fromEntries(names.map((name) => [name, { field: name }]))

/**
 * The drawing as a Vega spec of five flat marks. No facets and no axes of Vega's own: each of those is a dataflow of its own,
 * and a grid of twelve panels would hold dozens of them.
 */
export function drawingSpec(drawing: Drawing): Spec {
  const { bands, rules, paths, symbols, texts } = drawing
  return {
    $schema: VEGA_SCHEMA,
    width: drawing.widthPt || FULL_WIDTH_PT,
    height: drawing.heightPt,
    padding: 0,
    autosize: 'none',
    config: VEGA_CONFIG,
    data: [
      { name: 'bands', values: [...bands] },
      { name: 'rules', values: rules.map(solidAsNull) },
      { name: 'paths', values: paths.map(solidAsNull) },
      { name: 'symbols', values: [...symbols] },
      { name: 'texts', values: [...texts] },
    ],
    marks: [
      {
        type: 'rect',
        aria: false,
        from: { data: 'bands' },
        encode: { enter: field('x', 'y', 'x2', 'y2', 'fill') },
      },
      {
        type: 'rule',
        aria: false,
        from: { data: 'rules' },
        encode: {
          enter: {
            ...field('x', 'y', 'x2', 'y2', 'stroke'),
            strokeWidth: { field: 'width' },
            strokeDash: { field: 'dash' },
          },
        },
      },
      {
        type: 'path',
        aria: false,
        from: { data: 'paths' },
        encode: {
          enter: {
            ...field('x', 'y', 'path', 'stroke'),
            strokeWidth: { field: 'width' },
            strokeDash: { field: 'dash' },
            strokeOpacity: { field: 'opacity' },
            strokeJoin: { value: 'round' },
          },
        },
      },
      {
        type: 'symbol',
        aria: false,
        from: { data: 'symbols' },
        encode: {
          enter: { ...field('x', 'y', 'shape', 'size', 'fill', 'stroke'), strokeWidth: { value: 0.8 } },
        },
      },
      {
        type: 'text',
        aria: false,
        from: { data: 'texts' },
        encode: {
          enter: {
            ...field('x', 'y', 'text', 'align', 'baseline', 'fill', 'angle'),
            fontSize: { field: 'sizePt' },
            fontWeight: { field: 'weight' },
          },
        },
      },
    ],
  } as Spec
}
