import type { Capture } from '../capture/capture.ts'
import type { ChannelEntry, Engine } from '../job/schema.ts'
import { median } from '../maths/median.ts'
import { JobError, problem } from '../problems/problem.ts'
import type { Assignment } from './assign-cylinder.ts'
import { assignInFrames } from './assign-in-frames.ts'
import type { ChannelEvents } from './channel-events.ts'
import { frameAt, instantS, jumpsWithin, restartedS } from './clock.ts'
import type { Delineated } from './delineate.ts'
import type { EventFlag, EventWave, IgnitionEvent, QualityRemark, SyncMark } from './event.ts'
import type { Sync } from './read-sync.ts'
import { splitWasted } from './wasted.ts'

/** Events of one channel with cylinder and kind told, not yet numbered over the capture. */
export interface ToldChannel {
  events: IgnitionEvent[]
  marks: readonly SyncMark[]
  remarks: QualityRemark[]
}

interface ChannelInput {
  capture: Capture
  engine: Engine
  channel: ChannelEvents
  sync: Sync | undefined
}

/** Tells the cylinder of every event of a channel, by its lead or by the sync, and firing events from wasted ones. */
export function assignChannel(input: ChannelInput): ToldChannel {
  const seen = cylindersSeen(input.channel.entry, input.engine)
  return seen.length === 1 ? ownLead(input, seen[0]!) : bySync(input, seen)
}

/** Cylinders a secondary channel sees. */
function cylindersSeen({ cylinders }: ChannelEntry, engine: Engine): readonly number[] {
  if (cylinders === undefined || cylinders === 'all') return engine.firing_order
  return typeof cylinders === 'number' ? [cylinders] : cylinders
}

/** A pickup of its own: every event is that cylinder's, and on a wasted-spark engine every other one is wasted. */
function ownLead({ capture, engine, channel }: ChannelInput, cylinder: number): ToldChannel {
  if (engine.ignition !== 'wasted-spark') {
    return {
      events: build(capture, channel, () => ({ cylinder, kind: 'firing', extra: [] })),
      marks: [],
      remarks: [],
    }
  }
  if (channel.waves.every((wave) => !burns(wave))) return withoutLines({ capture, channel }, cylinder)
  const kinds = splitWasted(
    channel.waves.map((wave, i) => ({
      ...shapeOf(wave, instantS(capture, channel.found[i]!.breakdown)),
      burns: burns(wave),
      frame: frameAt(capture, channel.found[i]!.breakdown),
    })),
  )
  const events = build(capture, channel, (i) => ({
    cylinder: kinds[i] ? cylinder : undefined,
    kind: kinds[i] ?? 'firing',
    extra: [],
  }))
  const unclear = kinds.filter((k) => k === undefined).length
  const remarks: QualityRemark[] =
    unclear === 0
      ? []
      : [
          {
            code: unclear === kinds.length ? 'wasted-unclear' : 'wasted-some-unclear',
            forbids: unclear === kinds.length ? ['all'] : [],
            args: { cylinder, count: unclear, of: kinds.length },
            cylinders: [cylinder],
          },
        ]
  return { events, marks: [], remarks }
}

/** What burns for less is the half-wave of an open circuit or a stub of a spark. */
const LONGEST_STUB_S = 0.35e-3

const burns = ({ breakdown, sparkEnd, sampleS }: EventWave): boolean =>
  sparkEnd !== undefined && (sparkEnd - breakdown) * sampleS >= LONGEST_STUB_S

/** A lead on which nothing burns, firing or wasted: which turn is which cannot be told and does not matter; they alternate. */
function withoutLines(
  { capture, channel }: Pick<ChannelInput, 'capture' | 'channel'>,
  cylinder: number,
): ToldChannel {
  const events = build(capture, channel, (i) => ({
    cylinder,
    kind: i % 2 === 0 ? 'firing' : 'wasted',
    extra: [],
  }))
  const remarks: QualityRemark[] =
    events.length === 0
      ? []
      : [
          {
            code: 'no-lines',
            forbids: ['mixture'],
            args: { cylinder, of: events.length },
            cylinders: [cylinder],
          },
        ]
  return { events, marks: [], remarks }
}

function bySync({ capture, engine, channel, sync }: ChannelInput, seen: readonly number[]): ToldChannel {
  if (!sync)
    throw new JobError([
      problem('sync-missing', { file: capture.file }, { channel: String(channel.entry.column) }),
    ])
  const timesS = channel.found.map((e) => instantS(capture, e.breakdown))
  const told = assignInFrames({
    timesS,
    frames: channel.found.map((e) => frameAt(capture, e.breakdown)),
    pulses: sync.marks,
    pulseFrames: sync.frames,
    firingOrder: engine.firing_order,
    syncCylinder: sync.cylinder,
    seen,
  })
  if (told.lost) {
    const endS = instantS(capture, capture.rows)
    throw new JobError([
      problem('sync-lost', { file: capture.file }, { why: told.lost, fromS: capture.startS, toS: endS }),
    ])
  }
  const events = build(capture, channel, (i) => ({
    cylinder: told.cylinders[i],
    kind: 'firing',
    extra: told.bridged[i] ? ['bridged'] : [],
  }))
  return { events, marks: told.marks, remarks: untold(told) }
}

function untold(told: Assignment): QualityRemark[] {
  const count = told.cylinders.filter((c) => c === undefined).length
  return count === 0 ? [] : [{ code: 'sync-untold', forbids: [], args: { count, of: told.cylinders.length } }]
}

function build(
  capture: Capture,
  channel: ChannelEvents,
  tell: (i: number) => { cylinder: number | undefined; kind: 'firing' | 'wasted'; extra: EventFlag[] },
): IgnitionEvent[] {
  return channel.found.map((event, i) => {
    const { cylinder, kind, extra } = tell(i)
    const clockS = restartedS(capture, event.breakdown)
    return {
      capture: capture.file,
      channel: channel.channel,
      number: 0,
      cylinder,
      kind,
      frame: frameAt(capture, event.breakdown),
      ...(clockS !== undefined && { clockS }),
      breakdownS: instantS(capture, event.breakdown),
      endS: event.sparkEnd === undefined ? undefined : instantS(capture, event.sparkEnd),
      wave: channel.waves[i]!,
      flags: [...new Set([...channel.flags[i]!, ...extra, ...cutByClock(capture, event)])],
    }
  })
}

/** Kept before a breakdown without a dwell, and after a spark's end: rest and ring are measured there. */
const BEFORE_S = 1.5e-3
const AFTER_S = 2e-3

/** An event across a jump of the clock is cut there: neither its times nor its levels hold. A frame's ends are known ones. */
function cutByClock(capture: Capture, { breakdown, dwellStart, sparkEnd }: Delineated): EventFlag[] {
  if (capture.frames && capture.frames.length > 0) return []
  const from = dwellStart ?? breakdown - BEFORE_S / capture.sampleS
  const to = (sparkEnd ?? breakdown) + AFTER_S / capture.sampleS
  return jumpsWithin(capture, { from, to }) ? ['partial', 'clock_jump'] : []
}

/** Heights that tell a firing event from a wasted one: the top, and the line's middle and late levels. */
function shapeOf(
  { kv, breakdown, sparkEnd, peak }: EventWave,
  timeS: number,
): { timeS: number; peakKv: number; lineKv: number; lateKv: number } {
  const level = (from: number, to: number): number => {
    if (sparkEnd === undefined) return kv[peak]!
    const burn = sparkEnd - breakdown
    return (
      median(kv.subarray(Math.floor(breakdown + from * burn), Math.ceil(breakdown + to * burn))) ?? kv[peak]!
    )
  }
  return { timeS, peakKv: kv[peak]!, lineKv: level(0.3, 0.6), lateKv: level(0.7, 0.92) }
}
