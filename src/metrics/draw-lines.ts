import type { CaptureEvents, EventWave } from '../ignition/event.ts'
import { median } from '../maths/median.ts'
import { isLeftOut } from './cycle-speeds.ts'
import type { FigureName, MeasuredEvent } from './figures.ts'
import { LEVEL_SHARES } from './levels.ts'

/** A line ready to draw: ms from breakdown, kV above the pre-event level. */
interface SparkLineDrawing {
  x: readonly number[]
  y: readonly number[]
}

/** One cylinder's spark lines, ready to draw (the shape of `DrawnCylinder` in records/drawn-traces.ts). */
export interface CylinderDrawing {
  capture: string
  stage: 'before' | 'after'
  cylinder: number
  events: readonly SparkLineDrawing[]
  median: SparkLineDrawing
  marks: readonly { share: 10 | 50 | 90; ms: number; kv: number }[]
  /** Heights are % of the middle of the capture's spark lines, since the pickup's ratio is not known. */
  relative?: true
  shown: number
  of: number
}

const MOST_EVENTS = 40
const MOST_POINTS = 150
/** Lines start when the collapse of the firing line is past, ms. */
const FROM_MS = 0.02
/** Lines go on after the longest usual burn by this share, to show spark end and first ring. */
const TO_SHARE = 1.25
/** Where nothing burns, as much is shown as a usual burn takes, ms. */
const DEFAULT_MS = 2

/**
 * Thinned spark lines of every cylinder of a capture: at most 40 events, evenly chosen over its time, each a mean in at
 * most 150 cells of equal width; the pointwise median of all events, not only of those shown; and the marks of the
 * three levels at their medians. Complete firing events of the capture's condition only.
 *
 * @param found     events with their waves
 * @param measured  the same events in the same order, measured
 * @throws          RangeError when the two lists differ in length
 */
export function drawCylinders(found: CaptureEvents, measured: readonly MeasuredEvent[]): CylinderDrawing[] {
  if (found.events.length !== measured.length) {
    throw new RangeError(`${found.events.length} events found, ${measured.length} measured`)
  }
  const both = measured
    .map((event, i) => ({ event, wave: found.events[i]!.wave }))
    .filter(({ event }) => event.kind === 'firing' && !event.flags.includes('partial') && !isLeftOut(event))
  const numbers = [...new Set(both.flatMap(({ event }) => event.cylinder ?? []))].toSorted((a, b) => a - b)
  const own = numbers.map((cylinder) => both.filter(({ event }) => event.cylinder === cylinder))
  // Heights of a pickup of unknown ratio, as shares of what the spark lines of the capture stand at.
  const lineKv = medianOf(both, 'midKv') ?? median(both.flatMap(({ event: { topKv } }) => topKv ?? []))
  const toMs = TO_SHARE * Math.max(0, ...own.map((list) => medianOf(list, 'burnMs') ?? 0)) || DEFAULT_MS
  return own.map((list) => drawCylinder(list, toMs, list[0]!.wave.ratioUnknown ? lineKv : undefined))
}

type Pair = { event: MeasuredEvent; wave: EventWave }

/** @param wholeKv  height that counts as 100 %; undefined where heights are kV */
function drawCylinder(own: readonly Pair[], toMs: number, wholeKv: number | undefined): CylinderDrawing {
  const { capture, stage, cylinder } = own[0]!.event
  const grid = gridOf(own[0]!.wave.sampleS * 1000, toMs)
  const scale = wholeKv === undefined ? 1 : 100 / wholeKv
  const lines = own.map(({ wave }) => cellMeans(wave, grid).map((v) => (v === undefined ? v : scale * v)))
  const shown = evenlyChosen(lines, MOST_EVENTS)
  return {
    capture,
    stage,
    cylinder: cylinder!,
    events: shown.map((y) => lineOf(grid, y)),
    median: lineOf(
      grid,
      grid.map((_, k) => median(lines.flatMap((y) => y[k] ?? []))),
    ),
    marks: marksOf(own, scale),
    ...(wholeKv !== undefined && { relative: true as const }),
    shown: shown.length,
    of: lines.length,
  }
}

/** Centres of the cells, ms; no cell narrower than a sample. */
function gridOf(sampleMs: number, toMs: number): number[] {
  const count = Math.max(2, Math.min(MOST_POINTS, Math.floor((toMs - FROM_MS) / sampleMs)))
  const width = (toMs - FROM_MS) / count
  return Array.from({ length: count }, (_, k) => FROM_MS + (k + 0.5) * width)
}

/** Mean of the samples of each cell; undefined past the end of the wave. */
function cellMeans({ kv, sampleS, breakdown }: EventWave, grid: readonly number[]): (number | undefined)[] {
  const sampleMs = sampleS * 1000
  const half = (grid[1]! - grid[0]!) / 2
  return grid.map((centre) => {
    const from = Math.ceil(breakdown + (centre - half) / sampleMs)
    const to = Math.min(kv.length, Math.ceil(breakdown + (centre + half) / sampleMs))
    const cell = kv.subarray(from, to)
    return cell.length === 0 ? undefined : cell.reduce((total, v) => total + v, 0) / cell.length
  })
}

function lineOf(grid: readonly number[], y: readonly (number | undefined)[]): SparkLineDrawing {
  const seen = y.flatMap((v, k) => (v === undefined ? [] : [{ x: grid[k]!, y: v }]))
  return { x: seen.map((p) => rounded(p.x)), y: seen.map((p) => rounded(p.y)) }
}

/** Four decimals: a tenth of a volt and a tenth of a microsecond, finer than any line drawn. */
const rounded = (v: number): number => Math.round(v * 1e4) / 1e4

/** At most `most` of a list, first and last among them, at even distances. */
function evenlyChosen<T>(list: readonly T[], most: number): T[] {
  if (list.length <= most) return [...list]
  return Array.from({ length: most }, (_, k) => list[Math.round((k * (list.length - 1)) / (most - 1))]!)
}

function marksOf(own: readonly Pair[], scale: number): CylinderDrawing['marks'] {
  const burnMs = medianOf(own, 'burnMs')
  const places = [
    [10, 'startKv', LEVEL_SHARES.start],
    [50, 'midKv', LEVEL_SHARES.mid],
    [90, 'lateKv', LEVEL_SHARES.late],
  ] as const
  return places.flatMap(([share, figure, at]) => {
    const kv = medianOf(own, figure)
    return burnMs === undefined || kv === undefined
      ? []
      : [{ share, ms: rounded(at * burnMs), kv: rounded(scale * kv) }]
  })
}

/** Median of a figure over the events that burn. */
function medianOf(own: readonly Pair[], name: FigureName): number | undefined {
  return median(
    own.flatMap(({ event }) => {
      const figure = event.figures[name]
      return event.class !== 'no spark line' && figure.ok ? [figure.value] : []
    }),
  )
}
