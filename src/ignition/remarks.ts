import type { RemarkCode } from '../texts/remark-words.ts'
import type { ChannelEntry } from '../job/schema.ts'
import { asStated, ratioStated } from './ratio-stated.ts'
import type { EventFlag, IgnitionEvent, QualityRemark, SyncMark } from './event.ts'

/** What the remarks of one channel rest on. */
interface Remarked {
  entry: ChannelEntry
  sureness: number
  hum: { hz: number; peakKv: number } | undefined
  droop: { perS: number } | undefined
  recorder: { limitKv: number | undefined }
  signal: { sampleS: number }
}

/** Above this share of a channel's events a flaw is the record's, not one event's. */
const MANY = 0.2
/** Below this the direction of the firing line is a guess. */
const LEAST_SURENESS = 0.55

/**
 * Remarks on one secondary channel: direction in doubt, hum, tops or lines clipped, sampling too slow.
 *
 * @param firing  the flags of each of its events, wasted ones left out: those are low and quick by nature
 */
export function channelRemarks(
  { entry, sureness, hum, droop, recorder, signal }: Remarked,
  flags: readonly (readonly EventFlag[])[],
): QualityRemark[] {
  const channel = String(entry.column)
  const of = flags.length
  const limit = asStated(recorder.limitKv ?? 0, ratioStated(entry))
  const count = (flag: EventFlag): number => flags.filter((f) => f.includes(flag)).length
  const out: QualityRemark[] = []
  const concerned =
    typeof entry.cylinders === 'number'
      ? [entry.cylinders]
      : Array.isArray(entry.cylinders)
        ? entry.cylinders
        : undefined
  const add = (code: RemarkCode, forbids: QualityRemark['forbids'], args: QualityRemark['args']): void => {
    out.push({ code, forbids, args, ...(concerned ? { cylinders: concerned } : {}) })
  }
  if (of === 0) add('no-events-channel', ['all'], { channel })
  if (of > 0 && sureness < LEAST_SURENESS)
    add(entry.polarity === 'auto' ? 'polarity-unsure' : 'polarity-contradicted', ['firing', 'mixture'], {
      channel,
    })
  if (count('clipped') > MANY * of)
    add('clipped-top', ['firing'], { channel, count: count('clipped'), of, limit })
  if (count('line_clipped') > MANY * of)
    add('clipped-line', ['mixture'], { channel, count: count('line_clipped'), of, limit })
  if (count('under_sampled') > MANY * of)
    add('sampling-slow', ['firing'], {
      channel,
      count: count('under_sampled'),
      of,
      rateKhz: 1e-3 / signal.sampleS,
    })
  if (droop && droop.perS > 0) add('pickup-droop', [], { channel, fadesMs: 1000 / droop.perS })
  if (hum) add('mains-hum', [], { channel, humHz: hum.hz, peak: asStated(hum.peakKv, ratioStated(entry)) })
  return out
}

/** Remarks on the sync: pulses missing, and pulses struck out. */
export function syncRemarks(marks: readonly SyncMark[], events: readonly IgnitionEvent[]): QualityRemark[] {
  const out: QualityRemark[] = []
  const missing = marks.filter((m) => m.state === 'bridged').length
  const extra = marks.filter((m) => m.state === 'rejected').length
  const seen = marks.filter((m) => m.state === 'seen').length
  const bridged = events.filter((e) => e.flags.includes('bridged')).length
  if (missing > 0) out.push({ code: 'sync-bridged', forbids: [], args: { missing, seen, events: bridged } })
  if (extra > 0) out.push({ code: 'sync-extra', forbids: [], args: { extra, seen } })
  return out
}
