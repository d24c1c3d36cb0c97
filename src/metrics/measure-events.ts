import type { CaptureEvents, EventFlag, IgnitionEvent } from '../ignition/event.ts'
import type { Job } from '../job/schema.ts'
import { limit, type Limits } from '../limits/limits.ts'
import { absent, type AbsenceCode } from '../units/measured.ts'
import { burnTimeMs } from './burn-time.ts'
import { climbOf, type Climb } from './climb-of.ts'
import { classifyEvent, type EventLimits } from './classify-event.ts'
import { coilRing } from './coil-ring.ts'
import { dwellMs } from './dwell.ts'
import { earlyChangeKv } from './early-change.ts'
import { energyMj, type SparkCurrent } from './energy.ts'
import type { EventFigures, MeasuredEvent } from './figures.ts'
import { firingVoltageKv, isUnderSampled } from './firing-voltage.ts'
import { lateRiseKv, lateRisePct } from './late-rise.ts'
import { aboveZero, bendOf, sparkLevels, zeroUncertainty } from './levels.ts'
import { roughnessKv } from './roughness.ts'
import { sharpnessOf, type Sharpness } from './sharpness.ts'
import { EARLY, LATE, partLine } from './slopes.ts'
import { sparkLineOf, type SparkLine } from './spark-line.ts'
import { cycleIntervals, cycleSpeed } from './speed.ts'
import { topLastsMs } from './top-lasts.ts'

/** What measuring needs to know beside the events. */
export interface MeasuringAbout {
  stage: 'before' | 'after'
  engine: Pick<Job['engine'], 'strokes'>
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
  const zeroUs = zeroUncertainties(found.events)
  const sharpnesses = sharpnessByLines(found.events)
  const intervals = intervalsOf(found.events)
  const limits: EventLimits = {
    lateRisePct: limit(about.limits, 'lateRisePct'), stubBurnMs: limit(about.limits, 'stubBurnMs'),
  }
  return found.events.map((event) => {
    const flags = flagsOf(event)
    const figures: EventFigures = {
      ...waveFigures(event, { flags, climb: climbs[event.kind], zeroU: zeroUs.get(event.channel)!, sharpness: sharpnesses.get(sameLines(event))!, current: about.current?.(event) }),
      rpm: cycleSpeed(intervals.get(event), { strokes: about.engine.strokes, sampleS: event.wave.sampleS }),
    }
    return {
      capture: event.capture, stage: about.stage, cylinder: event.cylinder, number: event.number, kind: event.kind,
      breakdownS: event.breakdownS, topKv: event.wave.kv[event.wave.peak]!, topLastsMs: topLastsMs(event.wave), figures,
      class: classifyEvent({ kind: event.kind, flags, figures }, limits), flags,
    }
  })
}

type WaveFigures = Omit<EventFigures, 'rpm'>

function waveFigures(
  { wave }: IgnitionEvent,
  { flags, climb, zeroU, sharpness, current }:
  { flags: readonly EventFlag[]; climb: Climb; zeroU: number; sharpness: Sharpness; current: SparkCurrent | undefined },
): WaveFigures {
  const line = sparkLineOf(wave, flags)
  const ring = coilRing(wave, flags)
  return {
    firingKv: firingVoltageKv(wave, { flags, climb }),
    burnMs: burnTimeMs(wave, flags),
    ...(line.ok ? lineFigures(line, { zeroU, sharpness, current }) : noLineFigures(line.why)),
    coilCycles: ring.cycles, coilKhz: ring.khz, damping: ring.damping,
    dwellMs: flags.includes('partial') ? absent('partial') : dwellMs(wave),
  }
}

type LineFigures = Omit<WaveFigures, 'firingKv' | 'burnMs' | 'coilCycles' | 'coilKhz' | 'damping' | 'dwellMs'>

function lineFigures(
  line: SparkLine,
  { zeroU, sharpness, current }: { zeroU: number; sharpness: Sharpness; current: SparkCurrent | undefined },
): LineFigures {
  const { start, mid, late } = sparkLevels(line, sharpness)
  const early = partLine(line, EARLY)
  const second = partLine(line, LATE)
  return {
    startKv: aboveZero(start, zeroU), midKv: aboveZero(mid, zeroU), lateKv: aboveZero(late, zeroU),
    lateRiseKv: lateRiseKv(mid, late), lateRisePct: lateRisePct(mid, late), earlyChangeKv: earlyChangeKv(start, mid),
    earlySlopeKvPerMs: 'slope' in early ? early.slope : early,
    lateSlopeKvPerMs: 'slope' in second ? second.slope : second,
    roughnessKv: roughnessKv(line), energyMj: energyMj(line, current),
  }
}

function noLineFigures(why: AbsenceCode): LineFigures {
  const none = absent(why)
  return {
    startKv: none, midKv: none, lateKv: none, lateRiseKv: none, lateRisePct: none, earlyChangeKv: none,
    earlySlopeKvPerMs: none, lateSlopeKvPerMs: none, roughnessKv: none, energyMj: none,
  }
}

/** The event's flags, with `under_sampled` where the climb holds too few samples. */
function flagsOf({ wave, flags }: IgnitionEvent): readonly EventFlag[] {
  if (flags.includes('partial') || flags.includes('under_sampled') || !isUnderSampled(wave)) return flags
  return [...flags, 'under_sampled']
}

/** Doubt about the zero of each channel. */
function zeroUncertainties(events: readonly IgnitionEvent[]): Map<number, number> {
  const channels = [...new Set(events.map((e) => e.channel))]
  return new Map(channels.map((channel) => {
    const own = events.filter((e) => e.channel === channel).toSorted((a, b) => a.breakdownS - b.breakdownS)
    return [channel, zeroUncertainty(own.map((e) => e.wave.baselineKv))]
  }))
}

/** Events whose lines have one shape: of one cylinder, channel and kind. */
const sameLines = ({ channel, cylinder, kind }: IgnitionEvent): string => `${channel} ${cylinder} ${kind}`

/** How sharply the lines of each cylinder bend in their middle. */
function sharpnessByLines(events: readonly IgnitionEvent[]): Map<string, Sharpness> {
  return new Map([...new Set(events.map(sameLines))].map((same) => [same, sharpnessOf(
    events.filter((e) => sameLines(e) === same).flatMap(({ wave, flags }) => {
      const line = sparkLineOf(wave, flags)
      return (line.ok && bendOf(line)) || []
    }))]))
}

/** Interval to the same cylinder's next event, for events that have one with none missing between. */
function intervalsOf(events: readonly IgnitionEvent[]): Map<IgnitionEvent, number> {
  const found = new Map<IgnitionEvent, number>()
  const firing = events.filter((e) => e.kind === 'firing' && e.cylinder !== undefined)
  const byCylinder = [...new Set(firing.map((e) => e.cylinder))].map((cylinder) =>
    firing.filter((e) => e.cylinder === cylinder).toSorted((a, b) => a.breakdownS - b.breakdownS))
  const timesOf = (own: readonly IgnitionEvent[]): number[] => own.map((e) => e.breakdownS)
  for (const own of byCylinder) {
    const { intervalS, missing } = cycleIntervals(timesOf(own), byCylinder.filter((other) => other !== own).map(timesOf))
    own.slice(0, -1).forEach((event, i) => {
      if (missing[i] === 0) found.set(event, intervalS[i]!)
    })
  }
  return found
}
