import type { Spec } from 'vega'
import type { DrawnLine } from '../records/drawn-traces.ts'
import { VEGA_SCHEMA } from './chart-plan.ts'
import type { LineLook } from './drawing.ts'
import { lineRuns, type Frame } from './line-path.ts'
import type { Axis } from './nice-ticks.ts'
import { numberLocale } from './number-locale.ts'
import { ACCENT, FULL_WIDTH_PT, INK, PAPER, QUIET, SMALL_PT, STRONG, TEXT_PT, VEGA_CONFIG } from './theme.ts'

/** One small picture: a heading, a word under it, lines from back to front and marks upon them. */
export interface LinePanel {
  /** In lines no longer than the panel is wide. */
  head: readonly string[]
  /** Second rank, at the heading's right. */
  aside: string
  /** Under the heading, wrapped lines: the verdict's word. */
  under: readonly string[]
  lines: readonly { line: DrawnLine; role: string }[]
  marks: readonly { x: number; y: number; words: string }[]
}

/** A kind of line, and what the key calls it; without words it needs no key. */
interface LineKind {
  words?: string
  look: LineLook
  /** How the key draws it, where that is not how the panels do. */
  keyWidthPt?: number
}

export interface LinePanels {
  panels: readonly LinePanel[]
  columns: number
  x: Axis
  y: Axis
  xTitle: string
  yTitle: string
  panelHeightPt: number
  /** By role, from back to front. */
  kinds: Readonly<Record<string, LineKind>>
  language: string
}

const LEFT_PT = 32
const RIGHT_PT = 4
const GAP_PT = 10
const ROW_GAP_PT = 8
const HEAD_LINE_PT = 10
const KEY_PT = 15
/** White under a heading, and what its letters reach above it. */
const HEAD_GAP_PT = 7
const BELOW_PT = 26
const MARK_PT = 4
/** A neighbour this much lower pulls the line into the room under a mark, pt. */
const CLEAR_PT = 3

/** Width in pt of one panel's drawing area when `columns` stand side by side. */
export const linePanelWidthPt = (columns: number): number =>
  (FULL_WIDTH_PT - LEFT_PT - RIGHT_PT - (columns - 1) * GAP_PT) / columns

/** A value to five digits: specs are saved, and no eye tells more. */
const short = (value: number): number => Number(value.toPrecision(5))

/** A line as points inside the frame, to the digits an eye can tell; where it leaves, a point that is not drawn. */
export const pointsIn = (
  line: DrawnLine,
  frame: Frame,
  tolerancePt: number,
): { x: number | null; y: number | null }[] =>
  lineRuns(line, frame, tolerancePt).flatMap((run) => [
    ...run.map(({ x, y }) => ({ x: short(x), y: short(y) })),
    { x: null, y: null },
  ])

/** All lines of one kind and panel as one run of points, each line ended by a point that is not drawn. */
function pointsOf(grid: LinePanels, panel: number): object[] {
  const frame = {
    x: grid.x,
    y: grid.y,
    widthPt: linePanelWidthPt(grid.columns),
    heightPt: grid.panelHeightPt,
  }
  return grid.panels[panel]!.lines.flatMap(({ line, role }) =>
    pointsIn(line, frame, grid.kinds[role]!.look.tolerancePt).map((point) => ({ panel, role, ...point })),
  )
}

/** Marks with their words, turned inwards from the line's steep ends, on the side the line leaves free. */
function marksOf({ panels, y }: LinePanels, panel: number, heightPt: number): object[] {
  const { marks } = panels[panel]!
  const shown = marks.filter((mark) => mark.y <= y.high)
  return shown.map((mark, i) => {
    const last = i === shown.length - 1
    const neighbour = shown[last ? i - 1 : i + 1] ?? mark
    const above = ((mark.y - neighbour.y) / (y.high - y.low)) * heightPt > CLEAR_PT
    return {
      panel,
      role: 'mark',
      x: short(mark.x),
      y: short(mark.y),
      words: mark.words,
      align: i === 0 ? 'left' : last ? 'right' : 'center',
      up: above ? -1 : 1,
    }
  })
}

const scaled = (scale: string) => ({ scale, field: 'role' })
const at = { x: { scale: 'x', field: 'x' }, y: { scale: 'y', field: 'y' } }

/** Words of a panel's own, at their place above it. */
const headText = (
  of: 'head' | 'under' | 'aside',
  look: Readonly<Record<string, number | string | { signal: string }>>,
) => ({
  type: 'text',
  encode: {
    update: {
      baseline: { value: 'top' },
      lineHeight: { value: HEAD_LINE_PT },
      ...Object.fromEntries(
        Object.entries(look).map(([name, value]) => [name, typeof value === 'object' ? value : { value }]),
      ),
      text: { signal: `says.${of}` },
    },
  },
})

/**
 * Panels of many lines on the same axes, as a Vega spec whose facets, scales, axes, titles and key are Vega's own: panels
 * in rows, numbers at the left column and under the lowest panels.
 */
export function linePanels(grid: LinePanels): { spec: Spec; widthPt: number; heightPt: number } {
  const { panels, columns, kinds, panelHeightPt: height } = grid
  const width = linePanelWidthPt(columns)
  const headPt =
    HEAD_LINE_PT * Math.max(0, ...panels.map(({ head, under }) => head.length + under.length)) + HEAD_GAP_PT
  const rows = Math.ceil(panels.length / columns)
  const roles = Object.keys(kinds)
  const key = Object.values(kinds)
  const isKeyed = key.some(({ words }) => words !== undefined)
  const keyPt = isKeyed ? KEY_PT : 0
  const top = keyPt + headPt
  const spanX = columns * width + (columns - 1) * GAP_PT
  const spanY = rows * (height + headPt + ROW_GAP_PT) - headPt - ROW_GAP_PT
  const ordinal = (name: string, range: readonly unknown[]) => ({
    name,
    type: 'ordinal',
    domain: roles,
    range,
  })
  const legend = {
    stroke: 'stroke',
    strokeDash: 'dash',
    strokeWidth: 'keyWidth',
    symbolType: 'stroke',
    symbolSize: 324,
    orient: 'none',
    legendX: 0,
    legendY: -top,
    direction: 'horizontal',
    columnPadding: 16,
    labelLimit: 0,
    labelFontSize: TEXT_PT,
    labelOffset: 5,
    encode: { labels: { update: { text: { scale: 'words', field: 'value' } } } },
  }
  const spec = {
    $schema: VEGA_SCHEMA,
    config: { ...VEGA_CONFIG, locale: { number: numberLocale(grid.language) } },
    autosize: 'none',
    padding: { left: LEFT_PT, right: RIGHT_PT, top, bottom: BELOW_PT },
    width: spanX,
    height: spanY,
    data: [
      {
        name: 'panels',
        values: panels.map(({ head, aside, under }, i) => ({
          head,
          aside,
          under,
          first: i % columns === 0,
          lowest: i + columns >= panels.length,
        })),
      },
      {
        name: 'points',
        values: panels.flatMap((_, i) => [
          { panel: i, role: 'room', x: null, y: null },
          ...pointsOf(grid, i),
          ...marksOf(grid, i, height),
        ]),
      },
    ],
    scales: [
      {
        name: 'x',
        type: 'linear',
        domain: [grid.x.low, grid.x.high],
        range: [0, width],
        zero: false,
        nice: false,
      },
      {
        name: 'y',
        type: 'linear',
        domain: [grid.y.low, grid.y.high],
        range: [height, 0],
        zero: false,
        nice: false,
      },
      ordinal(
        'stroke',
        key.map(({ look }) => look.stroke),
      ),
      ordinal(
        'width',
        key.map(({ look }) => look.width),
      ),
      ordinal(
        'dash',
        key.map(({ look }) => (look.dash.length > 0 ? look.dash : [1, 0])),
      ),
      ordinal(
        'opacity',
        key.map(({ look }) => look.opacity),
      ),
      ordinal(
        'keyWidth',
        key.map(({ look, keyWidthPt }) => keyWidthPt ?? look.width),
      ),
      ordinal(
        'words',
        key.map(({ words = '' }) => words),
      ),
    ],
    legends: isKeyed ? [legend] : [],
    layout: { columns, padding: { column: GAP_PT, row: headPt + ROW_GAP_PT }, bounds: 'flush', align: 'all' },
    marks: [
      {
        type: 'group',
        from: { facet: { data: 'points', name: 'own', groupby: 'panel' } },
        encode: { update: { width: { value: width }, height: { value: height } } },
        signals: [{ name: 'says', update: "data('panels')[parent.panel]" }],
        data: [...roles, 'mark'].map((role) => ({
          name: role,
          source: 'own',
          transform: [{ type: 'filter', expr: `datum.role === '${role}'` }],
        })),
        axes: [
          {
            scale: 'y',
            orient: 'left',
            grid: true,
            gridScale: 'x',
            domain: false,
            ticks: false,
            tickCount: grid.y.ticks.length - 1,
            format: `.${grid.y.decimals}f`,
            encode: { labels: { update: { text: { signal: "says.first ? datum.label : ''" } } } },
          },
          {
            scale: 'x',
            orient: 'bottom',
            grid: true,
            gridScale: 'y',
            domain: false,
            ticks: false,
            tickCount: Math.max(2, grid.x.ticks.length - 1),
            labelOverlap: 'greedy',
            labelSeparation: 4,
            labelFlush: false,
            format: `.${grid.x.decimals}f`,
            encode: { labels: { update: { text: { signal: "says.lowest ? datum.label : ''" } } } },
          },
        ],
        marks: [
          {
            type: 'rule',
            encode: {
              update: {
                x2: { value: width },
                y: { scale: 'y', value: Math.max(grid.y.low, 0) },
                stroke: { value: QUIET },
                strokeWidth: { value: 0.5 },
              },
            },
          },
          headText('head', { y: -headPt + 2, fontWeight: STRONG, fontSize: TEXT_PT, fill: INK }),
          headText('under', {
            y: { signal: `${2 - headPt} + ${HEAD_LINE_PT} * length(says.head)` },
            fontSize: TEXT_PT,
            fill: INK,
          }),
          headText('aside', { y: -headPt + 3, x: width, align: 'right', fontSize: SMALL_PT, fill: QUIET }),
          ...roles.map((role) => ({
            type: 'line',
            from: { data: role },
            encode: {
              enter: {
                ...at,
                defined: { signal: 'isNumber(datum.y)' },
                stroke: scaled('stroke'),
                strokeWidth: scaled('width'),
                strokeDash: scaled('dash'),
                strokeOpacity: scaled('opacity'),
                strokeJoin: { value: 'round' },
              },
            },
          })),
          {
            type: 'symbol',
            from: { data: 'mark' },
            encode: {
              enter: {
                ...at,
                shape: { value: 'circle' },
                size: { value: MARK_PT ** 2 },
                fill: { value: PAPER },
                stroke: { value: ACCENT },
                strokeWidth: { value: 0.8 },
              },
            },
          },
          {
            type: 'text',
            from: { data: 'mark' },
            encode: {
              enter: {
                ...at,
                text: { field: 'words' },
                align: { field: 'align' },
                fontSize: { value: SMALL_PT },
                baseline: { signal: "datum.up < 0 ? 'bottom' : 'top'" },
                dx: { signal: `datum.align === 'left' ? -2 : datum.align === 'right' ? 2 : 0` },
                dy: { signal: 'datum.up * 4' },
              },
            },
          },
        ],
      },
      {
        type: 'text',
        encode: {
          update: {
            x: { value: -LEFT_PT + 1 },
            y: { value: spanY / 2 },
            angle: { value: -90 },
            align: { value: 'center' },
            baseline: { value: 'top' },
            fill: { value: QUIET },
            text: { value: grid.yTitle },
          },
        },
      },
      {
        type: 'text',
        encode: {
          update: {
            x: { value: spanX / 2 },
            y: { value: spanY + BELOW_PT - 1 },
            align: { value: 'center' },
            baseline: { value: 'bottom' },
            fill: { value: QUIET },
            text: { value: grid.xTitle },
          },
        },
      },
    ],
  }
  return { spec: spec as unknown as Spec, widthPt: FULL_WIDTH_PT, heightPt: spanY + top + BELOW_PT }
}
