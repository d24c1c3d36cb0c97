import type { CaptureEvents, EventFlag, IgnitionEvent } from '../ignition/event.ts'
import type { Job } from '../job/schema.ts'
import { limit, type Limits } from '../limits/limits.ts'
import { absent, type AbsenceCode } from '../units/measured.ts'
import { burnTimeMs } from './burn-time.ts'
import { climbOf, type Climb } from './climb-of.ts'
import { classifyEvent, type EventLimits } from './classify-event.ts'
import { coilRing } from './coil-ring.ts'
import { dwellMs } from './dwell.ts'
import { droopAreas, withDroop } from './droop-doubt.ts'
import { earlyChangeKv } from './early-change.ts'
import { energyMj, type SparkCurrent } from './energy.ts'
import type { EventFigures, MeasuredEvent } from './figures.ts'
import { byFrame, inFrames, turnsOfFrames } from './frames.ts'
import { firingVoltageKv, isUnderSampled } from './firing-voltage.ts'
import { lateRiseKv, lateRisePct } from './late-rise.ts'
import { bendOf, sparkLevels } from './levels.ts'
import { roughnessKv } from './roughness.ts'
import { sharpnessOf, type BendSeen, type Sharpness } from './sharpness.ts'
import { partLines, type PartLines } from './slopes.ts'
import { sparkLineOf, type SparkLine } from './spark-line.ts'
import { cycleIntervals, cycleSpeed, turnsPerCycle } from './speed.ts'
import { topLastsMs } from './top-lasts.ts'
import { aboveZero, zeroDoubt, type ZeroDoubt } from './zero.ts'

/** What measuring needs to know beside the events. */
export interface MeasuringAbout {
  stage: 'before' | 'after'
  engine: Pick<Job['engine'], 'strokes'> & Partial<Pick<Job['engine'], 'firing_order'>>
  limits: Limits
  /** Secondary current of an event on the samples of its wave, where one is recorded. */
  current?: (event: IgnitionEvent) => SparkCurrent | undefined
}

/** Every figure of every event of a capture, and each event's class. Order and number of events are kept. */
export function measureEvents(found: CaptureEvents, about: MeasuringAbout): MeasuredEvent[] {
  const climbs = {
    firing: climbOf(found.events.filter((e) => e.kind === 'firing')),
    wasted: climbOf(found.events.filter((e) => e.kind === 'wasted')),
  }
  const lines = new Map(found.events.map((event) => [event, fittedLine(event)]))
  const zeros = zeroDoubts(lines)
  const sharpnesses = sharpnessByLines(lines)
  const intervals = intervalsOf(found.events, about.engine)
  const limits: EventLimits = {
    lateRisePct: limit(about.limits, 'lateRisePct'),
    stubBurnMs: limit(about.limits, 'stubBurnMs'),
  }
  return found.events.map((event) => {
    const flags = flagsOf(event)
    const figures: EventFigures = {
      ...waveFigures(event, {
        flags,
        line: lines.get(event)!,
        climb: climbs[event.kind],
        zero: zeros.get(event.channel)!,
        sharpness: sharpnesses.get(sameLines(event))!,
        current: about.current?.(event),
      }),
      rpm: cycleSpeed(intervals.get(event), { strokes: about.engine.strokes, sampleS: event.wave.sampleS }),
    }
    const top = { topKv: event.wave.kv[event.wave.peak]!, topLastsMs: topLastsMs(event.wave) }
    return {
      capture: event.capture,
      stage: about.stage,
      cylinder: event.cylinder,
      number: event.number,
      kind: event.kind,
      breakdownS: event.breakdownS,
      ...(event.frame !== undefined && { frame: event.frame }),
      ...(event.clockS !== undefined && { clockS: event.clockS }),
      ...top,
      figures,
      class: classifyEvent({ kind: event.kind, flags, figures, ...top }, limits),
      flags,
    }
  })
}

/** A spark line with its two robust lines, which several figures ask for. */
interface FittedLine {
  ok: true
  line: SparkLine
  parts: PartLines
}
type MaybeLine = FittedLine | { ok: false; why: AbsenceCode }

function fittedLine({ wave, flags }: IgnitionEvent): MaybeLine {
  const line = sparkLineOf(wave, flags)
  return line.ok ? { ok: true, line, parts: partLines(line) } : line
}

type WaveFigures = Omit<EventFigures, 'rpm'>

function waveFigures(
  { wave }: IgnitionEvent,
  {
    flags,
    line,
    climb,
    zero,
    sharpness,
    current,
  }: {
    flags: readonly EventFlag[]
    line: MaybeLine
    climb: Climb
    zero: ZeroDoubt
    sharpness: Sharpness
    current: SparkCurrent | undefined
  },
): WaveFigures {
  const ring = coilRing(wave, flags)
  return {
    firingKv: withDroop(
      aboveZero(firingVoltageKv(wave, { flags, climb }), zero),
      droopAreas(wave).firing,
      wave.droop,
    ),
    burnMs: burnTimeMs(wave, flags),
    ...(line.ok ? lineFigures(line, { zero, sharpness, current }) : noLineFigures(line.why)),
    coilCycles: ring.cycles,
    coilKhz: ring.khz,
    damping: ring.damping,
    dwellMs: flags.includes('partial') ? absent('partial') : dwellMs(wave),
  }
}

type LineFigures = Omit<WaveFigures, 'firingKv' | 'burnMs' | 'coilCycles' | 'coilKhz' | 'damping' | 'dwellMs'>

function lineFigures(
  { line, parts }: FittedLine,
  { zero, sharpness, current }: { zero: ZeroDoubt; sharpness: Sharpness; current: SparkCurrent | undefined },
): LineFigures {
  const { start, mid, late } = sparkLevels(line, sharpness, parts)
  const { early, late: second } = parts
  const { droop } = line.wave
  const area = droopAreas(line.wave)
  const rise = mid.ok && late.ok ? (100 * (area.late - (late.value / mid.value) * area.mid)) / mid.value : 0
  return {
    startKv: withDroop(aboveZero(start, zero), area.start, droop),
    midKv: withDroop(aboveZero(mid, zero), area.mid, droop),
    lateKv: withDroop(aboveZero(late, zero), area.late, droop),
    lateRiseKv: withDroop(lateRiseKv(mid, late), area.late - area.mid, droop),
    lateRisePct: withDroop(lateRisePct(mid, late), rise, droop),
    earlyChangeKv: withDroop(earlyChangeKv(start, mid), area.mid - area.start, droop),
    earlySlopeKvPerMs: 'slope' in early ? early.slope : early,
    lateSlopeKvPerMs: 'slope' in second ? second.slope : second,
    roughnessKv: roughnessKv(line, parts),
    energyMj: energyMj(line, current),
  }
}

function noLineFigures(why: AbsenceCode): LineFigures {
  const none = absent(why)
  return {
    startKv: none,
    midKv: none,
    lateKv: none,
    lateRiseKv: none,
    lateRisePct: none,
    earlyChangeKv: none,
    earlySlopeKvPerMs: none,
    lateSlopeKvPerMs: none,
    roughnessKv: none,
    energyMj: none,
  }
}

/** The event's flags, with `under_sampled` where the climb holds too few samples. */
function flagsOf({ wave, flags }: IgnitionEvent): readonly EventFlag[] {
  if (flags.includes('partial') || flags.includes('under_sampled') || !isUnderSampled(wave)) return flags
  return [...flags, 'under_sampled']
}

/** Doubt about the zero of each channel. */
function zeroDoubts(lines: ReadonlyMap<IgnitionEvent, MaybeLine>): Map<number, ZeroDoubt> {
  const events = [...lines.keys()].toSorted((a, b) => a.breakdownS - b.breakdownS)
  return new Map(
    [...new Set(events.map((e) => e.channel))].map((channel) => {
      const own = events.filter((e) => e.channel === channel)
      return [
        channel,
        zeroDoubt(
          own.map((e) => e.wave),
          own.flatMap((e) => {
            const fitted = lines.get(e)!
            return fitted.ok ? [fitted.line] : []
          }),
        ),
      ]
    }),
  )
}

/** Events whose lines have one shape: of one cylinder, channel and kind. */
const sameLines = ({ channel, cylinder, kind }: IgnitionEvent): string => `${channel} ${cylinder} ${kind}`

/** How sharply the lines of each cylinder bend in their middle. */
function sharpnessByLines(lines: ReadonlyMap<IgnitionEvent, MaybeLine>): Map<string, Sharpness> {
  const bends = new Map<string, BendSeen[]>()
  for (const [event, fitted] of lines) {
    const own = bends.get(sameLines(event)) ?? []
    const bend = fitted.ok && bendOf(fitted.line, fitted.parts)
    bends.set(sameLines(event), bend ? [...own, bend] : own)
  }
  return new Map([...bends].map(([same, own]) => [same, sharpnessOf(own)]))
}

/**
 * Interval to the same cylinder's next event, for events that have one with none missing between. In a frame that holds
 * no such pair, the length of a working cycle by all firings of the frame.
 */
function intervalsOf(
  events: readonly IgnitionEvent[],
  { strokes, firing_order = [] }: MeasuringAbout['engine'],
): Map<IgnitionEvent, number> {
  const firing = events.filter((e) => e.kind === 'firing' && e.cylinder !== undefined)
  const found = new Map(byFrame(firing).flatMap((own) => intervalsWithin(own)))
  if (!inFrames(firing)) return found
  const turnsInCycle = turnsPerCycle(strokes)
  const turns = turnsOfFrames(firing, { firingOrder: firing_order, turnsPerCycle: turnsInCycle })
  for (const event of firing) {
    const seen = turns.get(event.frame)
    if (seen && !found.has(event)) found.set(event, (seen.spanS / seen.turns) * turnsInCycle)
  }
  return found
}

function intervalsWithin(firing: readonly IgnitionEvent[]): [IgnitionEvent, number][] {
  const byCylinder = [...new Set(firing.map((e) => e.cylinder))].map((cylinder) =>
    firing.filter((e) => e.cylinder === cylinder).toSorted((a, b) => a.breakdownS - b.breakdownS),
  )
  const timesOf = (own: readonly IgnitionEvent[]): number[] => own.map((e) => e.breakdownS)
  return byCylinder.flatMap((own) => {
    const { intervalS, missing } = cycleIntervals(
      timesOf(own),
      byCylinder.filter((other) => other !== own).map(timesOf),
    )
    return own
      .slice(0, -1)
      .flatMap((event, i): [IgnitionEvent, number][] => (missing[i] === 0 ? [[event, intervalS[i]!]] : []))
  })
}
