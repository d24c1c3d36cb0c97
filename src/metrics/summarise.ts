import { K95 } from '../maths/normal.ts'
import type { Job } from '../job/schema.ts'
import { mad, MAD_TO_SD } from '../maths/mad.ts'
import { median } from '../maths/median.ts'
import { medianInterval } from '../maths/median-interval.ts'
import { absent, type AbsenceCode, type Unit } from '../units/measured.ts'
import { joined } from './budget.ts'
import { isLeftOut } from './cycle-speeds.ts'
import {
  FIGURE_UNITS,
  type BudgetLine,
  type CylinderMeasures,
  type CylinderSummaries,
  type EventClass,
  type EventFigure,
  type FigureName,
  type MeasuredEvent,
  type NoLineTop,
  type Summary,
} from './figures.ts'
import { summariseFiring } from './firing-median.ts'
import { instrumentU, type Instrument } from './instrument.ts'
import { longRuns, type LongRun, type TimedValues } from './long-run.ts'
import { missingTurns } from './missing-turns.ts'
import { withSpeed } from './with-speed.ts'

/** What a summary needs to know beside the events. */
export interface SummaryAbout {
  stage: 'before' | 'after'
  capture: string
  engine: Pick<Job['engine'], 'strokes'>
  instrument: Instrument
  /** Cylinders the capture's pickups see; those without events then get a row of their own. Else: those with events. */
  cylinders?: readonly number[]
  /** Period of the speed's swing, s, where one stands out. */
  swingPeriodS?: number | undefined
  /** Events of captures of the same stage that see one other cylinder each. */
  elsewhere?: readonly (readonly MeasuredEvent[])[]
}

/** Standard error of a median of n normal values, in units of sd / sqrt(n): sqrt(pi / 2). */
const MEDIAN_EFFICIENCY = Math.sqrt(Math.PI / 2)
/** Figures that need a spark line; a stub of one has none. */
const LINE_FIGURES: ReadonlySet<FigureName> = new Set([
  'burnMs',
  'startKv',
  'midKv',
  'lateKv',
  'lateRiseKv',
  'lateRisePct',
  'earlyChangeKv',
  'earlySlopeKvPerMs',
  'lateSlopeKvPerMs',
  'roughnessKv',
  'energyMj',
  'coilCycles',
  'coilKhz',
  'damping',
])

/** One row a cylinder, in order of their numbers: median, spread and 95 % interval of every figure. */
export function summarise(events: readonly MeasuredEvent[], about: SummaryAbout): CylinderMeasures[] {
  const numbers = new Set([...(about.cylinders ?? []), ...events.flatMap((e) => e.cylinder ?? [])])
  const rising = [...numbers].toSorted((a, b) => a - b)
  const runs = longRunsOf(events, rising, about)
  return rising.map((cylinder, i) =>
    summariseCylinder(events, { ...about, cylinder, longRun: (name) => runs.get(name)?.[i] }),
  )
}

/** For figures that speak of the engine, what the order of the events does to each cylinder's interval. */
function longRunsOf(
  events: readonly MeasuredEvent[],
  cylinders: readonly number[],
  { swingPeriodS, elsewhere = [] }: SummaryAbout,
): Map<FigureName, LongRun[]> {
  const inOrder = (list: readonly MeasuredEvent[]): MeasuredEvent[] =>
    list.filter(isCounted).toSorted((a, b) => a.breakdownS - b.breakdownS)
  const own = cylinders.map((cylinder) => inOrder(events.filter((e) => e.cylinder === cylinder)))
  const others = elsewhere.map(inOrder)
  const seriesOf = (list: readonly MeasuredEvent[], name: FigureName): TimedValues => {
    const counted = countedLines(list)
    const present = list.flatMap((e) => {
      const figure = figureOf(e, name, counted)
      return figure.ok ? [{ atS: e.breakdownS, value: figure.value }] : []
    })
    return { atS: present.map((p) => p.atS), values: present.map((p) => p.value) }
  }
  return new Map(
    [...LONG_RUN_FIGURES].map((name) => [
      name,
      longRuns(
        own.map((list) => seriesOf(list, name)),
        swingPeriodS,
        others.map((list) => seriesOf(list, name)),
      ),
    ]),
  )
}

/** Complete firing events of the capture's condition. */
const isCounted = (e: MeasuredEvent): boolean =>
  e.kind === 'firing' && !e.flags.includes('partial') && !isLeftOut(e)

/**
 * Figures whose interval speaks of the engine in its condition: those a verdict is said by. What is only set against
 * another level of the same line, event by event, moves with it.
 */
const LONG_RUN_FIGURES: ReadonlySet<FigureName> = new Set(['lateRisePct', 'firingKv', 'burnMs'])
const FIGURE_NAMES = Object.keys(FIGURE_UNITS) as FigureName[]

/** Events whose lines count: where too few burn their time out, those that went out before it are counted with them. */
type Counted = (event: MeasuredEvent) => boolean

/** Fewest whole lines that are read by themselves. */
const LEAST_WHOLE_LINES = 10

function countedLines(complete: readonly MeasuredEvent[]): Counted {
  const whole = complete.filter((e) => e.class !== 'no spark line' && e.class !== 'went out')
  const all = whole.length < LEAST_WHOLE_LINES
  return (e) => e.class !== 'no spark line' && (all || e.class !== 'went out')
}

const figureOf = (event: MeasuredEvent, name: FigureName, counted: Counted): EventFigure<Unit> =>
  LINE_FIGURES.has(name) && !counted(event) ? absent('no-spark-line') : event.figures[name]

function summariseCylinder(
  all: readonly MeasuredEvent[],
  about: SummaryAbout & { cylinder: number; longRun: (name: FigureName) => LongRun | undefined },
): CylinderMeasures {
  const seen = all.filter((e) => e.cylinder === about.cylinder)
  const own = seen.filter((e) => !isLeftOut(e))
  const complete = own.filter(isCounted)
  const counted = countedLines(complete)
  const lines = complete.filter(counted)
  const riseWithSpeed = withSpeed(
    lines.flatMap(({ figures: { rpm, lateRisePct } }) =>
      rpm.ok && lateRisePct.ok ? [{ rpm: rpm.value, value: lateRisePct.value }] : [],
    ),
  )
  const cyclesNeeded = about.longRun('lateRisePct')?.cyclesNeeded
  const noLine = complete.filter((e) => e.class === 'no spark line')
  const top = noLineTop(noLine)
  return {
    stage: about.stage,
    capture: about.capture,
    cylinder: about.cylinder,
    events: complete.length,
    partial: own.filter((e) => e.flags.includes('partial')).length,
    wasted: own.filter((e) => e.kind === 'wasted').length,
    misfires: noLine.length,
    wentOut: complete.filter((e) => e.class === 'went out').length,
    lines: lines.length,
    missing: missingTurns(
      all.filter((e) => e.kind === 'firing').map((e) => ({ ...e, leftOut: isLeftOut(e) })),
      about.cylinder,
    ),
    leftOut: seen.length - own.length,
    ...(cyclesNeeded !== undefined && { cyclesNeeded }),
    ...(riseWithSpeed && { riseWithSpeed }),
    ...(top && { noLineTop: top }),
    classShares: sharesOf(complete),
    figures: summariesOf(complete, about),
  }
}

/** Median top of events without a spark line; clipped where most of them stand at the recorder's limit. */
function noLineTop(noLine: readonly MeasuredEvent[]): NoLineTop | undefined {
  const ranks = medianInterval(noLine.flatMap((e) => e.topKv ?? []))
  const clipped = noLine.filter((e) => e.flags.includes('clipped')).length
  if (!ranks) return undefined
  return {
    value: ranks.value,
    low: ranks.low,
    high: ranks.high,
    n: noLine.length,
    clipped: 2 * clipped > noLine.length,
    lastsMs: median(noLine.flatMap((e) => e.topLastsMs ?? [])) ?? 0,
  }
}

function sharesOf(events: readonly MeasuredEvent[]): Partial<Record<EventClass, number>> {
  const shares: Partial<Record<EventClass, number>> = {}
  for (const event of events) shares[event.class] = (shares[event.class] ?? 0) + 1 / events.length
  return shares
}

function summariesOf(
  events: readonly MeasuredEvent[],
  { instrument, longRun }: { instrument: Instrument; longRun: (name: FigureName) => LongRun | undefined },
): CylinderSummaries {
  const counted = countedLines(events)
  const summaries = Object.fromEntries(
    FIGURE_NAMES.map((name) => [
      name,
      summariseFigure(
        events.map((e) => figureOf(e, name, counted)),
        FIGURE_UNITS[name],
        { ...instrument, beyond: longRun(name)?.beyond ?? 0 },
      ),
    ]),
  ) as CylinderSummaries
  const beyond = longRun('firingKv')?.beyond ?? 0
  return {
    ...summaries,
    firingKv: summariseFiring(events, { plain: summaries.firingKv, instrument, beyond }),
  }
}

type Present<U extends Unit> = Extract<EventFigure<U>, { ok: true }>

/**
 * Median of a figure over a cylinder's events with its 95 % interval.
 *
 * What differs from event to event (the engine's own scatter, and noise, sampling and steps of each reading) is in the
 * spread of the values; its part of the interval comes from their ranks, whatever their distribution, and so need not
 * be symmetric. What all events share (instrument, method, zero, the remainder of the recorder's steps) is not; its standard
 * uncertainty is symmetric, but for the pickup's droop, which may lie to one side. Each side of the interval is the root sum of squares of the rank interval's own reach on
 * that side and 1.96 times the shared standard uncertainty, as JCGM 100 adds independent parts; the two sides keep
 * their own lengths.
 *
 * @param beyond  what neighbours that are alike add to either half of the random part, in squares (see `longRuns`)
 * @returns absent: `too-few-events` below the six values a rank interval needs; the commonest reason where none has it
 * @source  JCGM 100:2008, 5.1.2, 6.2, G.5.3 (unequal sides); `medianInterval`
 */
export function summariseFigure<U extends Unit>(
  figures: readonly EventFigure<U>[],
  unit: U,
  { beyond = 0, ...instrument }: Instrument & { beyond?: number },
): Summary<U> {
  const present = figures.filter((f): f is Present<U> => f.ok)
  if (present.length === 0) return absent(commonestReason(figures))
  const values = present.map((f) => f.value)
  const ranks = medianInterval(values)
  if (!ranks) return absent('too-few-events')
  const spread = mad(values)!
  const shared = sharedLines(present, { unit, value: ranks.value, spread }, instrument)
  const sharedU = Math.hypot(...shared.map((line) => line.u))
  const [down, up] = [ranks.value - ranks.low, ranks.high - ranks.value].map((half) =>
    Math.hypot(half, beyond),
  ) as [number, number]
  const random = (down + up) / (2 * K95)
  const pickup = pickupSides(present)
  const low = ranks.value - Math.hypot(down, K95 * sharedU, pickup.down)
  const high = ranks.value + Math.hypot(up, K95 * sharedU, pickup.up)
  // A doubt that has one side counts with what it adds to the whole width.
  const pickupU = Math.sqrt(Math.max(0, ((high - low) / (2 * K95)) ** 2 - random ** 2 - sharedU ** 2))
  const droop = pickup.down + pickup.up > 0 ? [{ source: 'pickup' as const, u: pickupU, sides: pickup }] : []
  return {
    ok: true,
    unit,
    n: values.length,
    mad: spread,
    value: ranks.value,
    low,
    high,
    budget: joined([...randomLines(present, random), ...shared, ...droop]),
  }
}

/** How far the pickup's droop may put the figure below and above its value, at 95 %: all events share it. */
function pickupSides<U extends Unit>(present: readonly Present<U>[]): { down: number; up: number } {
  const sides = present.map((f) => f.budget?.find((line) => line.source === 'pickup')?.sides)
  return { down: median(sides.map((s) => s?.down ?? 0))!, up: median(sides.map((s) => s?.up ?? 0))! }
}

/** Parts that all events share. */
function sharedLines<U extends Unit>(
  present: readonly Present<U>[],
  { unit, value, spread }: { unit: Unit; value: number; spread: number },
  instrument: Instrument,
): BudgetLine[] {
  return [
    { source: 'instrument', u: instrumentU(value, unit, instrument) },
    { source: 'method', u: typical(present, 'method') },
    { source: 'zero', u: typical(present, 'zero') },
    { source: 'quantisation', u: leftOfSteps(present, MAD_TO_SD * spread) },
  ]
}

/**
 * What the recorder's steps leave in a median: the events' own scatter moves the readings over the steps and averages
 * them out further, by the share that normal scatter leaves of a wave one step long.
 * @source characteristic function of the normal distribution; see `stepUncertainty`
 */
function leftOfSteps<U extends Unit>(present: readonly Present<U>[], scatter: number): number {
  const u = typical(present, 'quantisation')
  const step =
    median(present.flatMap((f) => f.budget?.find((line) => line.source === 'quantisation')?.step ?? [])) ??
    Math.sqrt(12) * u
  return step > 0 ? u * Math.exp(-2 * ((Math.PI * scatter) / step) ** 2) : 0
}

/** The random part told apart: what noise and sampling explain of it, the rest as scatter from event to event. */
function randomLines<U extends Unit>(present: readonly Present<U>[], random: number): BudgetLine[] {
  const explained = (['noise', 'sampling'] as const).map((source) => ({
    source,
    u: (typical(present, source) * MEDIAN_EFFICIENCY) / Math.sqrt(present.length),
  }))
  const known = Math.hypot(...explained.map((line) => line.u))
  if (known >= random) return explained.map(({ source, u }) => ({ source, u: (u * random) / known }))
  return [...explained, { source: 'scatter', u: Math.sqrt(random ** 2 - known ** 2) }]
}

/** Median over the events of a source's standard uncertainty. */
const typical = <U extends Unit>(present: readonly Present<U>[], source: BudgetLine['source']): number =>
  median(present.map((f) => f.budget?.find((line) => line.source === source)?.u ?? 0))!

function commonestReason(figures: readonly EventFigure<Unit>[]): AbsenceCode {
  const counts = new Map<AbsenceCode, number>()
  for (const figure of figures) if (!figure.ok) counts.set(figure.why, (counts.get(figure.why) ?? 0) + 1)
  return [...counts].toSorted((a, b) => b[1] - a[1])[0]?.[0] ?? 'too-few-events'
}
