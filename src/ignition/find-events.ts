import type { Capture } from '../capture/capture.ts'
import type { Engine } from '../job/schema.ts'
import { JobError, problem } from '../problems/problem.ts'
import { assignChannel } from './assign-channel.ts'
import { channelEvents, type ChannelEvents } from './channel-events.ts'
import { sampleAt } from './clock.ts'
import { markCrosstalk } from './crosstalk.ts'
import type { CaptureEvents, EventWave, IgnitionEvent, QualityRemark } from './event.ts'
import { primaryDwellStart, primaryOf } from './primary-dwell.ts'
import { readSync } from './read-sync.ts'
import { unsupportedIgnition } from './refuse.ts'
import { channelRemarks, syncRemarks } from './remarks.ts'

/**
 * Every ignition event of a capture: found, delineated, told by cylinder and kind.
 *
 * @returns events in order of time over all channels; cylinder undefined where it is not beyond doubt
 * @throws  JobError `unsupported-ignition`, `sync-missing`, `sync-lost` (no event can be told), `no-events`
 */
export function findEvents(capture: Capture, engine: Engine): CaptureEvents {
  const channels = capture.channels.flatMap((c, i) =>
    c.entry.carries === 'secondary' ? [channelEvents(capture, c, i)] : [],
  )
  refuse(capture, channels)
  const sync = readSync(capture)
  const told = channels.map((channel) => assignChannel({ capture, engine, channel, sync }))
  const events = markCrosstalk(
    told.flatMap((t) => t.events).sort((a, b) => a.breakdownS - b.breakdownS || a.channel - b.channel),
  )
  const withDwell = events.map((e) => ({ ...e, wave: dwellFromPrimary(e, capture) }))
  const marks = told.find((t) => t.marks.length > 0)?.marks ?? sync?.marks ?? []
  const remarks: QualityRemark[] = [
    ...channels.flatMap((c, i) =>
      channelRemarks(
        c,
        told[i]!.events.filter((e) => e.kind === 'firing').map((e) => e.flags),
      ),
    ),
    ...told.flatMap((t) => t.remarks),
    ...syncRemarks(marks, events),
  ]
  return {
    capture: capture.file,
    events: withDwell.map((e, i): IgnitionEvent => ({ ...e, number: i + 1 })),
    sync: marks,
    polarity: capture.channels.map((_, i) => channels.find((c) => c.channel === i)?.signal.sign ?? 0),
    remarks,
  }
}

/** The event's wave, with dwell start from a primary channel where one was recorded: it shows it more plainly than the pattern. */
function dwellFromPrimary(
  { wave, cylinder, breakdownS }: Omit<IgnitionEvent, 'number'>,
  capture: Capture,
): EventWave {
  const primary = primaryOf(capture.channels, cylinder, capture.sampleS)
  const breakdown = sampleAt(capture, breakdownS)
  const start = primary && primaryDwellStart(primary, breakdown)
  return start === undefined ? wave : { ...wave, dwellStart: wave.breakdown - (breakdown - start) }
}

/** Stops where the record holds no event at all, or a kind of ignition this method cannot judge. */
function refuse(capture: Capture, channels: readonly ChannelEvents[]): void {
  const place = { file: capture.file }
  const kinds = channels.map((c) => unsupportedIgnition(c.found, capture.sampleS))
  const kind = kinds.find((k) => k !== undefined)
  if (kind && kinds.filter((k) => k !== undefined).length > channels.length / 2) {
    throw new JobError([problem('unsupported-ignition', place, { why: kind })])
  }
  if (channels.length > 0 && channels.every((c) => c.found.length === 0)) {
    throw new JobError([
      problem('no-events', place, { channel: channels.map((c) => String(c.entry.column)).join(', ') }),
    ])
  }
}
