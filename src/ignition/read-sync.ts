import type { Capture } from '../capture/capture.ts'
import { frameAt, instantS } from './clock.ts'
import type { SyncMark } from './event.ts'
import { syncPulses } from './sync-pulses.ts'

/** The sync channel of a capture: which cylinder it marks, and its pulses. */
export interface Sync {
  channel: number
  cylinder: number
  marks: SyncMark[]
  /** Frame of every mark; undefined where the record is one. */
  frames: readonly (number | undefined)[]
}

/** @returns undefined where the capture has no sync channel that names its cylinder */
export function readSync(capture: Capture): Sync | undefined {
  const index = capture.channels.findIndex(
    (c) => c.entry.carries === 'sync' && c.entry.cylinder !== undefined,
  )
  const channel = capture.channels[index]
  if (!channel) return undefined
  const { sampleS } = capture
  const marks = syncPulses(channel.data, {
    sampleS,
    startS: 0,
    quantum: channel.quantum,
    walls: (capture.frames ?? []).map(({ row }) => row),
  })
  return {
    channel: index,
    cylinder: channel.entry.cylinder!,
    marks: marks.map((mark) => ({ ...mark, atS: instantS(capture, mark.atS / sampleS) })),
    frames: marks.map((mark) => frameAt(capture, mark.atS / sampleS)),
  }
}
