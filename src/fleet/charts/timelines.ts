import type { ChartPlan } from '../../charts/chart-plan.ts'
import { note, text } from '../../charts/drawing.ts'
import { widthOf } from '../../charts/faces.ts'
import { ACCENT, FULL_WIDTH_PT, HAIR, INK, PAPER, QUIET, SMALL_PT, TEXT_PT } from '../../charts/theme.ts'
import { VERDICT_LOOKS } from '../../charts/verdict-shapes.ts'
import { say } from '../../texts/say.ts'
import type { Texts, WordKey } from '../../texts/messages.ts'
import type { Verdict } from '../../verdicts/kinds/define-verdict.ts'
import { VERDICTS, type VerdictName } from '../../verdicts/kinds/index.ts'
import type { VehicleHistory } from '../attention.ts'
import { jobVerdict } from '../tally.ts'
import type { HistoryRow } from '../repeats.ts'
import { shortVehicleName } from '../words.ts'
import { blank, fitting, planOf } from './plan.ts'
import { dayOf, timeAxis, type TimeAxis } from './time-axis.ts'

/** Rows on one page, so that 500 vehicles read as easily as five. */
const ROWS_A_PAGE = 36
const ROW_PT = 16
const LABEL_PT = 128
const RIGHT_PT = 10
const AXIS_PT = 16
const MARK_SIZE = 40
/** Verdicts of one mark stand under their family's words. */
const SHAPES: readonly { verdict: VerdictName; words: WordKey }[] = VERDICTS.flatMap(
  (v: Verdict, i, all: readonly Verdict[]) => {
    const alike = all.filter((w) => w.sign === v.sign)
    return all.indexOf(alike[0]!) === i
      ? [{ verdict: VERDICTS[i]!.name, words: alike.length > 1 && v.family ? v.family.words : v.words }]
      : []
  },
)

/** Every vehicle's verdicts over time, a row each: one mark a job, in the shape of its verdict; repeat faults ringed, confirmed repairs underlined. */
export function timelines(vehicles: readonly VehicleHistory[], texts: Texts): ChartPlan[] {
  const dated = vehicles.filter(({ rows }) => rows.some((row) => row.date !== ''))
  if (dated.length === 0) return []
  const axis = timeAxis(
    texts,
    dated.flatMap(({ rows }) => rows.flatMap((row) => row.date || [])),
  )
  const pages = Math.ceil(dated.length / ROWS_A_PAGE)
  return Array.from({ length: pages }, (_, page) => {
    const shown = dated.slice(page * ROWS_A_PAGE, (page + 1) * ROWS_A_PAGE)
    return timeline(shown, { axis, texts, page, pages })
  })
}

function timeline(
  vehicles: readonly VehicleHistory[],
  { axis, texts, page, pages }: { axis: TimeAxis; texts: Texts; page: number; pages: number },
): ChartPlan {
  const keyPt = drawKey(blank(0), texts)
  const top = keyPt + AXIS_PT
  const drawing = blank(top + vehicles.length * ROW_PT + 4)
  drawKey(drawing, texts)
  const x = (date: string) =>
    LABEL_PT + ((dayOf(date) - axis.low) / (axis.high - axis.low)) * (FULL_WIDTH_PT - LABEL_PT - RIGHT_PT)
  drawAxis(drawing, axis, { top, bottom: top + vehicles.length * ROW_PT })
  vehicles.forEach((history, i) => {
    const y = top + (i + 0.5) * ROW_PT
    drawing.texts.push(text('vehicle', labelOf(texts, history), { x: LABEL_PT - 8, y, align: 'right' }))
    drawing.rules.push({
      role: 'row',
      x: LABEL_PT,
      y,
      x2: FULL_WIDTH_PT - RIGHT_PT,
      y2: y,
      stroke: HAIR,
      width: 0.5,
      dash: [],
    })
    for (const row of history.rows) if (row.date !== '') drawMark(drawing, row, { x: x(row.date), y })
  })
  const first = page * ROWS_A_PAGE + 1
  const args = {
    from: first,
    to: first + vehicles.length - 1,
    repeats: vehicles.reduce((sum, v) => sum + v.repeats, 0),
    jobs: vehicles.reduce((sum, v) => sum + v.jobs, 0),
  }
  return planOf(`fleet-history-${page + 1}`, drawing, {
    title: say(texts, pages === 1 ? 'fleet.history.chart' : 'fleet.history.chart-part', {
      ...args,
      page: page + 1,
      pages,
    }),
    alt: say(texts, 'fleet.history.alt', args),
  })
}

/** The mark alone; the table below has the words to it. */
const labelOf = (texts: Texts, { vehicle }: VehicleHistory): string =>
  fitting(shortVehicleName(texts, vehicle), LABEL_PT - 12, (line) => widthOf(line, TEXT_PT))

function drawMark(drawing: ReturnType<typeof blank>, row: HistoryRow, at: { x: number; y: number }): void {
  if (row.repeat)
    drawing.symbols.push({
      role: 'repeat',
      ...at,
      shape: 'circle',
      size: 4.2 * MARK_SIZE,
      fill: PAPER,
      stroke: ACCENT,
    })
  drawing.symbols.push({ role: 'job', ...at, size: MARK_SIZE, ...VERDICT_LOOKS[jobVerdict(row)] })
  if (row.repair === 'repair confirmed')
    drawing.rules.push({
      role: 'confirmed',
      x: at.x - 4,
      y: at.y + 6.5,
      x2: at.x + 4,
      y2: at.y + 6.5,
      stroke: INK,
      width: 1.4,
      dash: [],
    })
}

function drawAxis(
  drawing: ReturnType<typeof blank>,
  axis: TimeAxis,
  { top, bottom }: { top: number; bottom: number },
): void {
  let free = 0
  for (const { day, words } of axis.marks) {
    const at = LABEL_PT + ((day - axis.low) / (axis.high - axis.low)) * (FULL_WIDTH_PT - LABEL_PT - RIGHT_PT)
    drawing.rules.push({
      role: 'grid',
      x: at,
      y: top - 3,
      x2: at,
      y2: bottom,
      stroke: HAIR,
      width: 0.5,
      dash: [],
    })
    const half = widthOf(words, SMALL_PT) / 2
    if (at - half < free) continue
    drawing.texts.push(
      note('date', words, {
        x: Math.min(at, FULL_WIDTH_PT - half),
        y: top - 8,
        align: 'center',
        fill: QUIET,
      }),
    )
    free = at + half + 5
  }
}

/** @returns height of the key, pt */
function drawKey(drawing: ReturnType<typeof blank>, texts: Texts): number {
  let x = 6
  let y = 6
  const entry = (words: string, draw: (at: { x: number; y: number }) => void) => {
    const width = 11 + widthOf(words, SMALL_PT) + 14
    if (x + width > FULL_WIDTH_PT) {
      x = 6
      y += 13
    }
    draw({ x, y })
    drawing.texts.push(note('key', words, { x: x + 9, y }))
    x += width
  }
  for (const { verdict, words } of SHAPES) {
    entry(say(texts, words), (at) =>
      drawing.symbols.push({ role: 'key', ...at, size: MARK_SIZE, ...VERDICT_LOOKS[verdict] }),
    )
  }
  entry(say(texts, 'fleet.key.repeat'), (at) =>
    drawing.symbols.push({
      role: 'key',
      ...at,
      shape: 'circle',
      size: 3.4 * MARK_SIZE,
      fill: PAPER,
      stroke: ACCENT,
    }),
  )
  entry(say(texts, 'fleet.key.confirmed'), (at) =>
    drawing.rules.push({
      role: 'key',
      x: at.x - 4,
      y: at.y,
      x2: at.x + 4,
      y2: at.y,
      stroke: INK,
      width: 1.4,
      dash: [],
    }),
  )
  return y + 8
}
