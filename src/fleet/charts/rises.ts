import type { ChartPlan } from '../../charts/chart-plan.ts'
import { note, text } from '../../charts/drawing.ts'
import { widthOf } from '../../charts/faces.ts'
import { niceAxis } from '../../charts/nice-ticks.ts'
import { yGrid } from '../../charts/y-grid.ts'
import { ACCENT, FULL_WIDTH_PT, HAIR, INK, PAPER, QUIET, SMALL_PT, STRONG } from '../../charts/theme.ts'
import { formatNumber } from '../../texts/format-quantity.ts'
import { say } from '../../texts/say.ts'
import type { Texts } from '../../texts/messages.ts'
import type { VehicleHistory } from '../attention.ts'
import { shortVehicleName } from '../words.ts'
import { blank, fitting, planOf } from './plan.ts'
import { dayOf, timeAxis } from './time-axis.ts'

const COLUMNS = 4
const ROWS_A_PAGE = 5
const GAP_PT = 14
const LEFT_PT = 26
const PANEL_PT = 78
const HEAD_PT = 13
const FOOT_PT = 32
const KEY_PT = 18
/** Vehicles drawn; the others' figures stand in fleet.csv. */
const MOST_PANELS = 60
const MARK_SIZE = 26
const CHANGED_SIZE = 90

/** Late rise of the worst cylinder over time, a small panel a vehicle that was measured twice or more: as found filled, after the repair hollow. */
export function rises(vehicles: readonly VehicleHistory[], texts: Texts): ChartPlan[] {
  const shown = vehicles
    .filter(({ rows }) => rows.filter((row) => row.lateRisePct !== null && row.date !== '').length > 1)
    .slice(0, MOST_PANELS)
  if (shown.length === 0) return []
  const values = shown.flatMap(({ rows }) =>
    rows.flatMap((row) => [row.lateRisePct ?? 0, row.lateRiseAfterPct ?? 0]),
  )
  const y = niceAxis(Math.min(0, ...values), Math.max(1, ...values), { most: 4 })
  const pages = Math.ceil(shown.length / (COLUMNS * ROWS_A_PAGE))
  return Array.from({ length: pages }, (_, page) => {
    const panels = shown.slice(page * COLUMNS * ROWS_A_PAGE, (page + 1) * COLUMNS * ROWS_A_PAGE)
    const drawing = blank(KEY_PT + Math.ceil(panels.length / COLUMNS) * (HEAD_PT + PANEL_PT + FOOT_PT))
    drawKey(drawing, texts)
    panels.forEach((history, i) =>
      drawPanel(drawing, history, { y, texts, column: i % COLUMNS, row: Math.floor(i / COLUMNS) }),
    )
    const args = { vehicles: panels.length, page: page + 1, pages }
    return planOf(`fleet-rise-${page + 1}`, drawing, {
      title: say(texts, pages === 1 ? 'fleet.rise.chart' : 'fleet.rise.chart-part', args),
      alt: say(texts, 'fleet.rise.alt', args),
    })
  })
}

const WIDTH_PT = (FULL_WIDTH_PT - LEFT_PT - (COLUMNS - 1) * GAP_PT) / COLUMNS

function drawPanel(
  drawing: ReturnType<typeof blank>,
  history: VehicleHistory,
  how: { y: ReturnType<typeof niceAxis>; texts: Texts; column: number; row: number },
): void {
  const { y, texts, column, row } = how
  const left = LEFT_PT + column * (WIDTH_PT + GAP_PT)
  const top = KEY_PT + row * (HEAD_PT + PANEL_PT + FOOT_PT) + HEAD_PT
  const points = history.rows.filter((job) => job.date !== '')
  const axis = timeAxis(
    texts,
    points.map((job) => job.date),
  )
  const xOf = (date: string) =>
    left + 4 + ((dayOf(date) - axis.low) / (axis.high - axis.low)) * (WIDTH_PT - 8)
  const yOf = (value: number) => top + ((y.high - value) / (y.high - y.low)) * PANEL_PT
  const name = fitting(shortVehicleName(texts, history.vehicle), WIDTH_PT, (words) =>
    widthOf(words, SMALL_PT, 'strong'),
  )
  drawing.texts.push(note('vehicle', name, { x: left, y: top - 7, weight: STRONG }))
  const grid = yGrid(y, {
    left,
    widthPt: WIDTH_PT,
    yOf,
    numbered: column === 0,
    language: texts.language,
    stroke: (tick) => (tick === 0 ? QUIET : HAIR),
  })
  drawing.rules.push(...grid.rules)
  drawing.texts.push(...grid.texts)
  for (const [job, x, align] of [
    [points[0]!, left, 'left'],
    [points.at(-1)!, left + WIDTH_PT, 'right'],
  ] as const)
    if (job.odometer !== null)
      drawing.texts.push(
        note('odometer', `${formatNumber(job.odometer, 0, texts.language)}\u00a0${job.odometerUnit}`, {
          x,
          y: top + PANEL_PT + 18,
          align,
          fill: QUIET,
        }),
      )
  drawLine(drawing, points, { xOf, yOf })
  const [first, last] = [axis.marks[0]!, axis.marks.at(-1)!]
  drawing.texts.push(
    note('date', first.words, { x: left, y: top + PANEL_PT + 9, fill: QUIET }),
    note('date', last.words, { x: left + WIDTH_PT, y: top + PANEL_PT + 9, align: 'right', fill: QUIET }),
  )
  for (const job of points) {
    const [found, after] = [job.lateRisePct, job.lateRiseAfterPct]
    const x = xOf(job.date)
    if (found !== null && after !== null)
      drawing.rules.push({
        role: 'shift',
        x,
        y: yOf(found),
        x2: x,
        y2: yOf(after),
        stroke: QUIET,
        width: 0.8,
        dash: [2, 1.5],
      })
    if (job.changed.length > 0 && found !== null)
      drawing.symbols.push({
        role: 'changed',
        x,
        y: yOf(found),
        shape: 'circle',
        size: CHANGED_SIZE,
        fill: PAPER,
        stroke: ACCENT,
      })
    if (found !== null)
      drawing.symbols.push({
        role: 'found',
        x,
        y: yOf(found),
        shape: 'circle',
        size: MARK_SIZE,
        fill: ACCENT,
        stroke: ACCENT,
      })
    if (after !== null)
      drawing.symbols.push({
        role: 'after',
        x,
        y: yOf(after),
        shape: 'circle',
        size: MARK_SIZE,
        fill: PAPER,
        stroke: INK,
      })
  }
}

/** A line from how the vehicle left one visit to how it came to the next. */
function drawLine(
  drawing: ReturnType<typeof blank>,
  points: VehicleHistory['rows'],
  { xOf, yOf }: { xOf: (date: string) => number; yOf: (value: number) => number },
): void {
  const measured = points.filter((job) => job.lateRisePct !== null)
  measured.slice(1).forEach((job, i) => {
    const before = measured[i]!
    drawing.rules.push({
      role: 'line',
      x: xOf(before.date),
      y: yOf(before.lateRiseAfterPct ?? before.lateRisePct!),
      x2: xOf(job.date),
      y2: yOf(job.lateRisePct!),
      stroke: QUIET,
      width: 0.8,
      dash: [],
    })
  })
}

function drawKey(drawing: ReturnType<typeof blank>, texts: Texts): void {
  const found = say(texts, 'fleet.rise.found')
  drawing.symbols.push({
    role: 'key',
    x: LEFT_PT + 4,
    y: 6,
    shape: 'circle',
    size: MARK_SIZE,
    fill: ACCENT,
    stroke: ACCENT,
  })
  drawing.texts.push(text('key', found, { x: LEFT_PT + 12, y: 6, sizePt: SMALL_PT }))
  const at = LEFT_PT + 12 + widthOf(found, SMALL_PT) + 18
  const changedAt = at + 8 + widthOf(say(texts, 'fleet.rise.after'), SMALL_PT) + 18
  drawing.symbols.push({
    role: 'key',
    x: changedAt + 4,
    y: 6,
    shape: 'circle',
    size: CHANGED_SIZE,
    fill: PAPER,
    stroke: ACCENT,
  })
  drawing.texts.push(
    text('key', say(texts, 'fleet.rise.changed'), { x: changedAt + 14, y: 6, sizePt: SMALL_PT }),
  )
  drawing.symbols.push({
    role: 'key',
    x: at,
    y: 6,
    shape: 'circle',
    size: MARK_SIZE,
    fill: PAPER,
    stroke: INK,
  })
  drawing.texts.push(text('key', say(texts, 'fleet.rise.after'), { x: at + 8, y: 6, sizePt: SMALL_PT }))
}
