import type { TopLevelSpec } from 'vega-lite'
import type { Texts } from '../texts/messages.ts'
import { VEGA_LITE_SCHEMA } from './chart-plan.ts'
import { widthOf } from './faces.ts'
import type { Axis } from './nice-ticks.ts'
import { numberLocale } from './number-locale.ts'
import { FULL_WIDTH_PT, HAIR, INK, QUIET, SMALL_PT, STRONG, TEXT_PT, VEGA_LITE_CONFIG } from './theme.ts'
import type { MarkLook } from './verdict-shapes.ts'

/** One mark with its interval, on the line of its row. `shiftPt` parts marks that share a row. */
export interface IntervalMark {
  row: string
  value: number
  low: number
  high: number
  look: MarkLook
  dash: readonly number[]
  shiftPt: number
}
/** What stands at the right of a row, one line a mark: stage or evidence mark (may be empty), figure and word. */
interface Beside {
  shiftPt: number
  stage: string
  figure: string
  word: string
}
export interface IntervalRow {
  label: string
  beside: readonly Beside[]
}

export interface IntervalRows {
  rows: readonly IntervalRow[]
  marks: readonly IntervalMark[]
  /** Dashed lines across all rows, with one name above the middle between them. */
  limits?: { at: readonly number[]; words: string }
  axis: Axis
  title: string
  rowPt: number
  /** Full width unless said. */
  widthPt?: number
  texts: Texts
}

const GAP_PT = 8
const BELOW_PT = 30
const ABOVE_PT = 12
const MARK_SIZE = 44

const widest = (words: readonly string[], face: 'regular' | 'strong' = 'regular') =>
  Math.ceil(Math.max(0, ...words.map((w) => widthOf(w, TEXT_PT, face))))
const raw = (field: string) => ({ field, type: 'nominal' as const, scale: null })

/** Where the columns at the right stand, pt from the plot's right edge; an empty column takes no room. */
function besideColumns(beside: readonly Beside[]) {
  const stage = widest(beside.map((b) => b.stage))
  const figureEnd = GAP_PT + (stage > 0 ? stage + GAP_PT : 0) + widest(beside.map((b) => b.figure))
  const word = widest(
    beside.map((b) => b.word),
    'strong',
  )
  return {
    stageAt: GAP_PT,
    figureEnd,
    wordAt: figureEnd + GAP_PT,
    widthPt: figureEnd + (word > 0 ? GAP_PT + word : 0) + 1,
  }
}

/** Rows of marks with intervals; labels and words in columns of their own, so that nothing meets. */
export function intervalRows(chart: IntervalRows): { spec: TopLevelSpec; widthPt: number; heightPt: number } {
  const { rows, axis } = chart
  const columns = besideColumns(rows.flatMap((r) => r.beside))
  const left = widest(rows.map((r) => r.label)) + GAP_PT
  const widthPt = chart.widthPt ?? FULL_WIDTH_PT
  const width = widthPt - left - columns.widthPt
  const height = rows.length * chart.rowPt
  const top = chart.limits ? ABOVE_PT : 4
  const y = {
    field: 'row',
    type: 'nominal',
    sort: null,
    scale: { type: 'band', domain: rows.map((r) => r.label), paddingInner: 0, paddingOuter: 0 },
    axis: { title: null, domain: false, ticks: false, grid: true, gridColor: HAIR, labelPadding: GAP_PT - 2 },
  } as const
  const x = {
    field: 'value',
    type: 'quantitative',
    title: chart.title,
    scale: { domain: [axis.low, axis.high], nice: false, zero: false },
    axis: {
      values: [...axis.ticks],
      format: `.${axis.decimals}f`,
      labelFlush: false,
      ...titleWithin(chart.title, { left, width, widthPt }),
    },
  } as const
  const spec = {
    $schema: VEGA_LITE_SCHEMA,
    config: { ...VEGA_LITE_CONFIG, locale: { number: numberLocale(chart.texts.language) } },
    autosize: { type: 'none' },
    padding: { left, right: columns.widthPt, top, bottom: BELOW_PT },
    width,
    height,
    layer: [
      ...(chart.limits ? limitLayers(chart.limits, x) : []),
      ...markLayers(chart.marks, x, y),
      ...besideLayers(rows, width, { columns, y }),
    ],
  }
  return { spec: spec as unknown as TopLevelSpec, widthPt, heightPt: height + top + BELOW_PT }
}

/** The axis' title stands under the middle of the plot, or beside it where words wider than the plot would leave the chart. */
function titleWithin(
  title: string,
  { left, width, widthPt }: { left: number; width: number; widthPt: number },
): { titleX?: number } {
  const half = widest([title]) / 2
  const middle = left + width / 2
  const within = Math.max(half, Math.min(middle, widthPt - half))
  return within === middle ? {} : { titleX: within - left }
}

function limitLayers({ at, words }: NonNullable<IntervalRows['limits']>, x: object): object[] {
  const data = { name: 'limits', values: at.map((value) => ({ value })) }
  const middle = {
    name: 'limits-name',
    values: [{ value: at.reduce((sum, value) => sum + value, 0) / at.length, words }],
  }
  return [
    { data, mark: { type: 'rule', strokeDash: [4, 2], strokeWidth: 0.9, stroke: INK }, encoding: { x } },
    {
      data: middle,
      mark: { type: 'text', baseline: 'bottom', fontSize: SMALL_PT, fill: QUIET },
      encoding: { x, y: { value: -2 }, text: { field: 'words' } },
    },
  ]
}

/** Interval lines under their marks; a shift is a property of a layer, so each shift has layers of its own. */
function markLayers(marks: readonly IntervalMark[], x: object, y: object): object[] {
  const shifts = [...new Set(marks.map((m) => m.shiftPt))]
  return shifts.flatMap((shift) => {
    const values = marks
      .filter((m) => m.shiftPt === shift)
      .map(({ row, value, low, high, dash, look }) => ({
        row,
        value,
        low,
        high,
        dash: dash.length > 0 ? dash : null,
        ...look,
      }))
    const data = { name: `marks${shifts.indexOf(shift)}`, values }
    const looks = { stroke: raw('stroke'), y }
    return [
      {
        data,
        mark: { type: 'rule', strokeWidth: 1.4, yOffset: shift, y2Offset: shift },
        encoding: { ...looks, x: { ...x, field: 'low' }, x2: { field: 'high' }, strokeDash: raw('dash') },
      },
      {
        data,
        mark: { type: 'point', opacity: 1, size: MARK_SIZE, strokeWidth: 1, yOffset: shift },
        encoding: { ...looks, x, shape: raw('shape'), fill: raw('fill') },
      },
    ]
  })
}

function besideLayers(
  rows: readonly IntervalRow[],
  width: number,
  how: { columns: ReturnType<typeof besideColumns>; y: object },
): object[] {
  const { columns, y } = how
  const lines = rows.flatMap((r) => r.beside.map((b) => ({ row: r.label, ...b })))
  const shifts = [...new Set(lines.map((l) => l.shiftPt))]
  const parts = [
    { field: 'stage', at: columns.stageAt, align: 'left', weight: 400, fill: QUIET },
    { field: 'figure', at: columns.figureEnd, align: 'right', weight: 400, fill: INK },
    { field: 'word', at: columns.wordAt, align: 'left', weight: STRONG, fill: INK },
  ].filter((part) => lines.some((l) => l[part.field as keyof Beside] !== ''))
  return shifts.flatMap((shift) => {
    const data = { name: `beside${shifts.indexOf(shift)}`, values: lines.filter((l) => l.shiftPt === shift) }
    return parts.map((part) => ({
      data,
      mark: { type: 'text', align: part.align, fontWeight: part.weight, fill: part.fill, dy: shift },
      encoding: { y, x: { value: width + part.at }, text: { field: part.field } },
    }))
  })
}
