import type { HistoryRecord } from '../records/result.ts'
import { formatNumber } from '../texts/format-quantity.ts'
import type { Texts, WordKey } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import type { Followed } from '../verdicts/history/visit.ts'
import type { ChartPlan } from './chart-plan.ts'
import { drawingSpec, note, type Drawing } from './drawing.ts'
import { widthOf } from './faces.ts'
import { niceAxis, type Axis } from './nice-ticks.ts'
import { yGrid } from './y-grid.ts'
import { ACCENT, FULL_WIDTH_PT, INK, PAPER, QUIET, SMALL_PT, STRONG, WASH } from './theme.ts'

type Change = HistoryRecord['changes'][number]
type Rows = { -readonly [K in keyof Drawing]: Drawing[K] extends readonly (infer T)[] ? T[] : Drawing[K] }

/** A visit of one cylinder as a point: its day, figure, and how it counts. */
interface Point {
  day: number
  value: number
  kind: 'healthy' | 'odd' | 'now'
}

const COLUMNS = 4
const GAP_PT = 14
const LEFT_PT = 28
const HEAD_PT = 13
const PANEL_PT = 66
const FOOT_PT = 30
const KEY_PT = 18
const WIDTH_PT = (FULL_WIDTH_PT - LEFT_PT - (COLUMNS - 1) * GAP_PT) / COLUMNS
const MARK_SIZE = 26
const MS_A_DAY = 86_400_000

const FIGURES = {
  late_rise_pct: { words: 'history.late-rise', unit: '%' },
  firing_kv: { words: 'history.firing', unit: 'kV' },
  burn_ms: { words: 'history.burn', unit: 'ms' },
} as const satisfies Record<Followed, { words: WordKey; unit: string }>

/**
 * Each cylinder's figure over the visits of its vehicle, a line over the dates with the odometer beside them; the band is
 * the reference change value around its healthy mean. Late rise always, another figure where it has changed.
 */
export function historyCharts(
  history: HistoryRecord,
  {
    opened,
    odometer,
    texts,
  }: { opened: string; odometer: HistoryRecord['visits'][number]['odometer']; texts: Texts },
): ChartPlan[] {
  const figures = [...new Set(history.changes.map(({ figure }) => figure))]
  return figures
    .filter((f) => f === 'late_rise_pct' || history.changes.some((c) => c.figure === f && c.changed))
    .map((figure) => figureChart(history, { figure, opened, odometer, texts }))
}

function figureChart(
  history: HistoryRecord,
  it: {
    figure: Followed
    opened: string
    odometer: HistoryRecord['visits'][number]['odometer']
    texts: Texts
  },
): ChartPlan {
  const { figure, opened, odometer, texts } = it
  const changes = history.changes.filter((c) => c.figure === figure)
  const cylinders = [...new Set(changes.map((c) => c.cylinder))].sort((a, b) => a - b)
  const panels = cylinders.map((cylinder) => ({
    cylinder,
    change: changes.find((c) => c.cylinder === cylinder)!,
    points: pointsOf(history, { cylinder, figure, opened }),
  }))
  const bands = changes.map((c) => bandOf(c))
  const values = [...panels.flatMap(({ points }) => points.map(({ value }) => value)), ...bands.flat()]
  const y = niceAxis(Math.min(...values), Math.max(...values), { most: 4 })
  const visits = [...history.visits, { opened, odometer }]
  const days = visits.map((v) => dayOf(v.opened))
  const [low, high] = [Math.min(...days), Math.max(...days)]
  const drawing: Rows = {
    widthPt: FULL_WIDTH_PT,
    heightPt: KEY_PT + Math.ceil(panels.length / COLUMNS) * (HEAD_PT + PANEL_PT + FOOT_PT),
    bands: [],
    rules: [],
    paths: [],
    symbols: [],
    texts: [],
  }
  drawKey(drawing, texts)
  panels.forEach((panel, i) => {
    const left = LEFT_PT + (i % COLUMNS) * (WIDTH_PT + GAP_PT)
    const top = KEY_PT + Math.floor(i / COLUMNS) * (HEAD_PT + PANEL_PT + FOOT_PT) + HEAD_PT
    const xOf = (day: number) => left + 5 + ((day - low) / Math.max(high - low, 1)) * (WIDTH_PT - 10)
    drawPanel(drawing, panel, { left, top, xOf, y, texts, ticks: i % COLUMNS === 0 })
    drawFoot(drawing, [visits[0]!, visits.at(-1)!], { left, top: top + PANEL_PT, texts })
  })
  const { words, unit } = FIGURES[figure]
  const alt = say(texts, 'chart.history.alt', {
    panels: panels.length,
    visits: visits.length,
    changed: changes.filter((c) => c.changed).length,
  })
  return {
    id: `history-${figure.replaceAll('_', '-')}`,
    spec: { ...drawingSpec(drawing), description: alt },
    title: say(texts, 'chart.history.title', { figure: say(texts, words), unit }),
    alt,
    widthPt: drawing.widthPt,
    heightPt: drawing.heightPt,
    place: 'history',
  }
}

const dayOf = (iso: string): number =>
  Date.UTC(Number(iso.slice(0, 4)), Number(iso.slice(5, 7)) - 1, Number(iso.slice(8, 10))) / MS_A_DAY

/** Reference and what chance makes around it, in the figure's own unit. */
const bandOf = ({ figure, reference, reference_change: most }: Change): [low: number, high: number] =>
  figure === 'late_rise_pct'
    ? [reference - most, reference + most]
    : [reference * Math.exp(-most / 100), reference * Math.exp(most / 100)]

/** What stands for the cylinder after each earlier visit, and each state of it now. */
function pointsOf(
  { visits, changes }: HistoryRecord,
  { cylinder, figure, opened }: { cylinder: number; figure: Followed; opened: string },
): Point[] {
  const earlier = visits.flatMap((visit): Point[] => {
    const of = visit.cylinders.filter((c) => c.cylinder === cylinder && c.figures[figure] !== undefined)
    const shown = of.find((c) => c.stage === 'after') ?? of[0]
    return shown
      ? [
          {
            day: dayOf(visit.opened),
            value: shown.figures[figure]!.value,
            kind: shown.healthy ? 'healthy' : 'odd',
          },
        ]
      : []
  })
  const now = changes
    .filter((c) => c.cylinder === cylinder && c.figure === figure)
    .map((c): Point => ({ day: dayOf(opened), value: c.now.value, kind: 'now' }))
  return [...earlier, ...now]
}

const LOOKS = {
  healthy: { shape: 'circle', fill: QUIET, stroke: QUIET },
  odd: { shape: 'triangle-up', fill: PAPER, stroke: INK },
  now: { shape: 'diamond', fill: ACCENT, stroke: ACCENT },
} as const satisfies Record<Point['kind'], object>

function drawPanel(
  drawing: Rows,
  { cylinder, change, points }: { cylinder: number; change: Change; points: readonly Point[] },
  at: { left: number; top: number; xOf: (day: number) => number; y: Axis; texts: Texts; ticks: boolean },
): void {
  const { left, top, xOf, y, texts } = at
  const yOf = (value: number) => top + ((y.high - value) / (y.high - y.low)) * PANEL_PT
  const [low, high] = bandOf(change)
  drawing.bands.push({ role: 'band', x: left, y: yOf(high), x2: left + WIDTH_PT, y2: yOf(low), fill: WASH })
  drawing.texts.push(
    note('cylinder', say(texts, 'chart.history.cylinder', { cylinder }), {
      x: left,
      y: top - 7,
      weight: change.changed ? STRONG : 400,
    }),
  )
  const grid = yGrid(y, { left, widthPt: WIDTH_PT, yOf, numbered: at.ticks, language: texts.language })
  drawing.rules.push(...grid.rules)
  drawing.texts.push(...grid.texts)
  points.slice(1).forEach((point, i) => {
    const from = points[i]!
    drawing.rules.push({
      role: 'line',
      x: xOf(from.day),
      y: yOf(from.value),
      x2: xOf(point.day),
      y2: yOf(point.value),
      stroke: QUIET,
      width: 0.9,
      dash: [],
    })
  })
  for (const { day, value, kind } of points)
    drawing.symbols.push({ role: kind, x: xOf(day), y: yOf(value), size: MARK_SIZE, ...LOOKS[kind] })
}

/** Date and odometer of the first and the last visit. */
function drawFoot(
  drawing: Rows,
  [first, last]: [
    Pick<HistoryRecord['visits'][number], 'opened' | 'odometer'>,
    Pick<HistoryRecord['visits'][number], 'opened' | 'odometer'>,
  ],
  { left, top, texts }: { left: number; top: number; texts: Texts },
): void {
  for (const [visit, align] of [
    [first, 'left'],
    [last, 'right'],
  ] as const) {
    const x = align === 'left' ? left : left + WIDTH_PT
    drawing.texts.push(note('date', visit.opened.slice(0, 7), { x, y: top + 8, align, fill: QUIET }))
    if (visit.odometer)
      drawing.texts.push(
        note(
          'odometer',
          `${formatNumber(visit.odometer.value, 0, texts.language)}\u00a0${visit.odometer.unit}`,
          { x, y: top + 17, align, fill: QUIET },
        ),
      )
  }
}

function drawKey(drawing: Rows, texts: Texts): void {
  let x = LEFT_PT
  const entry = (words: string, draw: (x: number) => void) => {
    draw(x)
    drawing.texts.push(note('key', words, { x: x + 12, y: 6 }))
    x += 12 + widthOf(words, SMALL_PT) + 16
  }
  for (const [kind, words] of [
    ['healthy', 'chart.history.healthy'],
    ['odd', 'chart.history.odd'],
    ['now', 'chart.history.now'],
  ] as const)
    entry(say(texts, words), (at) =>
      drawing.symbols.push({ role: 'key', x: at + 4, y: 6, size: MARK_SIZE, ...LOOKS[kind] }),
    )
  entry(say(texts, 'chart.history.band'), (at) =>
    drawing.bands.push({ role: 'key', x: at, y: 2, x2: at + 9, y2: 10, fill: WASH }),
  )
}
