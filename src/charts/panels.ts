import type { DrawnLine } from '../records/drawn-traces.ts'
import { formatNumber } from '../texts/format-quantity.ts'
import {
  note,
  text,
  type Drawing,
  type LineLook,
  type PathRow,
  type RuleRow,
  type SymbolRow,
  type TextRow,
} from './drawing.ts'
import { widthOf } from './faces.ts'
import { keyRow, type KeyEntry } from './key-row.ts'
import { linePath, xPt, yPt, type Frame } from './line-path.ts'
import type { Axis } from './nice-ticks.ts'
import { ACCENT, FULL_WIDTH_PT, HAIR, PAPER, QUIET, SMALL_PT, STRONG, TEXT_PT } from './theme.ts'
import { wrapText } from './wrap-text.ts'

/** One small picture: a heading, a word under it, lines from back to front and marks upon them. */
export interface Panel {
  /** Wrapped where it is longer than the panel is wide. */
  head: string
  /** Second rank, at the heading's right where there is room for it. */
  aside: string
  /** Under the heading, wrapped lines: the verdict's word. */
  under: readonly string[]
  lines: readonly { line: DrawnLine; look: LineLook; role: string }[]
  marks: readonly { x: number; y: number; words: string }[]
}

export interface PanelGrid {
  panels: readonly Panel[]
  columns: number
  x: Axis
  y: Axis
  xTitle: string
  yTitle: string
  panelHeightPt: number
  key: readonly KeyEntry[]
  language: string
  widthPt?: number
  /** Room kept free between the heading and the drawing area, for marks of the chart's own. */
  clearPt?: number
}

/** A drawn grid and where its panels stand, for a chart that adds marks of its own. */
export interface DrawnGrid {
  drawing: Drawing
  frame: Frame
  places: readonly Place[]
}

const LEFT_PT = 36
const GAP_PT = 10
const ROW_GAP_PT = 8
const HEAD_LINE_PT = 10
const MARK_RADIUS_PT = 2
const LABEL_GAP_PT = 4
/** The top tick's number reaches this far above a panel. */
const TICK_REACH_PT = 5
/** A neighbour this much lower on the page pulls the line into the room under a mark. */
const CLEAR_PT = 3
const BELOW_PT = 26

export interface Place {
  left: number
  top: number
  first: boolean
  lowest: boolean
}
interface Layout {
  panelWidthPt: number
  headPt: number
  rowPt: number
  places: Place[]
  heightPt: number
  keyPt: number
}

function layOut(grid: PanelGrid, keyPt: number): Layout {
  const { panels, columns, panelHeightPt } = grid
  const width = grid.widthPt ?? FULL_WIDTH_PT
  const panelWidthPt = (width - LEFT_PT - 4 - (columns - 1) * GAP_PT) / columns
  const headLines = Math.max(0, ...panels.map((p) => linesOfHead(p, panelWidthPt).length + p.under.length))
  const headPt = HEAD_LINE_PT * headLines + (headLines > 0 ? 2 : TICK_REACH_PT) + (grid.clearPt ?? 0)
  const rowPt = headPt + panelHeightPt + ROW_GAP_PT
  const places = panels.map((_, i): Place => ({
    left: LEFT_PT + (i % columns) * (panelWidthPt + GAP_PT),
    top: keyPt + headPt + Math.floor(i / columns) * rowPt,
    first: i % columns === 0,
    lowest: i + columns >= panels.length,
  }))
  const rows = Math.ceil(panels.length / columns)
  return {
    panelWidthPt,
    headPt,
    rowPt,
    places,
    keyPt,
    heightPt: keyPt + rows * rowPt - ROW_GAP_PT + BELOW_PT,
  }
}

const linesOfHead = ({ head }: Panel, widthPt: number): string[] =>
  head === '' ? [] : wrapText(head, widthPt, { sizePt: TEXT_PT, face: 'strong' })

/** Ticks whose labels stand clear of each other and within the panel's reach, from the first on. */
function labelled(axis: Axis, at: (value: number) => number, label: (value: number) => string): number[] {
  let clear = -Infinity
  return axis.ticks.filter((value) => {
    const half = widthOf(label(value), SMALL_PT) / 2
    if (at(value) - half < clear + 4) return false
    clear = at(value) + half
    return true
  })
}

function gridRules(frame: Frame, { left, top }: Place): RuleRow[] {
  const base = Math.max(frame.y.low, 0)
  const rule = { role: 'grid', stroke: HAIR, width: 0.5, dash: [] }
  return [
    ...frame.y.ticks.map((v) => ({
      ...rule,
      x: left,
      x2: left + frame.widthPt,
      y: top + yPt(frame, v),
      y2: top + yPt(frame, v),
    })),
    ...frame.x.ticks.map((v) => ({
      ...rule,
      x: left + xPt(frame, v),
      x2: left + xPt(frame, v),
      y: top,
      y2: top + frame.heightPt,
    })),
    {
      ...rule,
      role: 'axis',
      stroke: QUIET,
      x: left,
      x2: left + frame.widthPt,
      y: top + yPt(frame, base),
      y2: top + yPt(frame, base),
    },
  ]
}

function tickTexts(frame: Frame, place: Place, language: string): TextRow[] {
  const label = (axis: Axis) => (value: number) => formatNumber(value, axis.decimals, language)
  const xs = labelled(frame.x, (v) => xPt(frame, v), label(frame.x))
  return [
    ...(place.first
      ? frame.y.ticks.map((v) =>
          note('tick', label(frame.y)(v), {
            x: place.left - 4,
            y: place.top + yPt(frame, v),
            align: 'right',
          }),
        )
      : []),
    ...(place.lowest
      ? xs.map((v) =>
          note('tick', label(frame.x)(v), {
            x: place.left + xPt(frame, v),
            y: place.top + frame.heightPt + 3,
            align: 'center',
            baseline: 'top',
          }),
        )
      : []),
  ]
}

function headTexts(panel: Panel, place: Place, layout: Layout): TextRow[] {
  const top = place.top - layout.headPt + 1
  const head = linesOfHead(panel, layout.panelWidthPt)
  const room = layout.panelWidthPt - widthOf(head[0] ?? '', TEXT_PT, 'strong') - 6
  const aside = widthOf(panel.aside, SMALL_PT) <= room ? [panel.aside] : []
  return [
    ...head.map((line, i) =>
      text('head', line, { x: place.left, y: top + HEAD_LINE_PT * i, baseline: 'top', weight: STRONG }),
    ),
    ...aside
      .filter((a) => a !== '')
      .map((a) =>
        note('aside', a, {
          x: place.left + layout.panelWidthPt,
          y: top + 1,
          align: 'right',
          baseline: 'top',
          fill: QUIET,
        }),
      ),
    ...panel.under.map((line, i) =>
      text('under', line, { x: place.left, y: top + HEAD_LINE_PT * (head.length + i), baseline: 'top' }),
    ),
  ]
}

/** Where a mark's label stands clear of the line: turned inwards from its steep ends, and on the side the line leaves free. */
function labelAt(
  marks: readonly { x: number; y: number }[],
  index: number,
): Pick<TextRow, 'x' | 'y' | 'align' | 'baseline'> {
  const { x, y } = marks[index]!
  const last = index === marks.length - 1
  const neighbour = marks[last ? index - 1 : index + 1] ?? { x, y }
  const above = neighbour.y - y > CLEAR_PT
  const vertical = above
    ? { y: y - LABEL_GAP_PT, baseline: 'bottom' as const }
    : { y: y + LABEL_GAP_PT, baseline: 'top' as const }
  if (index === 0) return { x: x - MARK_RADIUS_PT, align: 'left', ...vertical }
  return last ? { x: x + MARK_RADIUS_PT, align: 'right', ...vertical } : { x, align: 'center', ...vertical }
}

function markRows(panel: Panel, place: Place, frame: Frame): { symbols: SymbolRow[]; texts: TextRow[] } {
  const shown = panel.marks.filter((m) => m.y <= frame.y.high && m.x <= frame.x.high)
  const points = shown.map((m) => ({ x: place.left + xPt(frame, m.x), y: place.top + yPt(frame, m.y) }))
  return {
    symbols: points.map((at) => ({
      role: 'mark',
      ...at,
      shape: 'circle',
      size: (2 * MARK_RADIUS_PT) ** 2,
      fill: PAPER,
      stroke: ACCENT,
    })),
    texts: shown.flatMap((m, i) => (m.words === '' ? [] : [note('mark', m.words, labelAt(points, i))])),
  }
}

/** The middle of something nearest to `middle` at which both its ends lie between 0 and `end`. */
const within = (middle: number, half: number, end: number): number =>
  Math.max(half, Math.min(middle, end - half))

/** Small pictures in rows, all on the same axes: numbers stand at the left column and under the lowest panel of each column. */
export function drawPanels(grid: PanelGrid): DrawnGrid {
  const width = grid.widthPt ?? FULL_WIDTH_PT
  const key = keyRow(grid.key, { left: LEFT_PT, right: width })
  const layout = layOut(grid, key.heightPt)
  const frame: Frame = { x: grid.x, y: grid.y, widthPt: layout.panelWidthPt, heightPt: grid.panelHeightPt }
  const each = <T>(rows: (panel: Panel, place: Place) => T[]) =>
    grid.panels.flatMap((panel, i) => rows(panel, layout.places[i]!))
  const marks = grid.panels.map((panel, i) => markRows(panel, layout.places[i]!, frame))
  const middle = layout.keyPt + (layout.heightPt - layout.keyPt - BELOW_PT) / 2
  const paths = each((panel, place) =>
    panel.lines
      .map(({ line, look, role }): PathRow => ({
        role,
        x: place.left,
        y: place.top,
        path: linePath(line, frame, look.tolerancePt),
        ...look,
      }))
      .filter((row) => row.path !== ''),
  )
  const drawing: Drawing = {
    widthPt: width,
    heightPt: layout.heightPt,
    bands: [],
    rules: each((_, place) => gridRules(frame, place)),
    paths: [...key.paths, ...paths],
    symbols: [...key.symbols, ...marks.flatMap((m) => m.symbols)],
    texts: [
      ...key.texts,
      ...each((panel, place) => headTexts(panel, place, layout)),
      ...each((_, place) => tickTexts(frame, place, grid.language)),
      ...marks.flatMap((m) => m.texts),
      text('axis-title', grid.yTitle, {
        x: 1,
        y: within(middle, widthOf(grid.yTitle, TEXT_PT) / 2, layout.heightPt),
        angle: -90,
        align: 'center',
        baseline: 'top',
        fill: QUIET,
      }),
      text('axis-title', grid.xTitle, {
        x: (LEFT_PT + width) / 2,
        y: layout.heightPt - 1,
        align: 'center',
        baseline: 'bottom',
        fill: QUIET,
      }),
    ],
  }
  return { drawing, frame, places: layout.places }
}
