import { sentenceOf } from '../../texts/messages.ts'
import type { Capture, Channel } from '../../capture/capture.ts'
import { asStated, ratioStated } from '../../ignition/ratio-stated.ts'
import type { CaptureEvents, QualityRemark } from '../../ignition/event.ts'
import type { SpeedMeasures } from '../../metrics/figures.ts'
import { REMARK_WORDS } from '../../texts/remark-words.ts'
import type { Texts } from '../../texts/messages.ts'
import { toDigits } from '../round.ts'
import type { CaptureRecord } from '../result.ts'
import { figureRecord, measuredRecord } from './figure-record.ts'
import { statement } from './statement.ts'

/** What a capture was, how it was read, and what its quality allows. No samples are kept. */
export function captureRecord(
  texts: Texts,
  { capture, found, speed }: { capture: Capture; found: CaptureEvents; speed: SpeedMeasures },
): CaptureRecord {
  const { entry, dialect } = capture
  const count = (state: 'seen' | 'bridged' | 'rejected') => found.sync.filter((m) => m.state === state).length
  return {
    file: entry.file,
    sha256: capture.sha256,
    bytes: capture.bytes,
    stage: entry.stage,
    condition: entry.condition,
    engine: entry.engine,
    taken: entry.taken,
    rows: capture.rows,
    sample_rate_hz: toDigits(1 / capture.sampleS, 9),
    start_s: toDigits(capture.startS, 9),
    duration_s: toDigits((capture.rows - 1) * capture.sampleS, 9),
    dialect: {
      encoding: dialect.encoding,
      separator: dialect.separator,
      decimal: dialect.decimal,
      preamble_lines: dialect.preambleLines,
      header: dialect.header ? [...dialect.header] : null,
      evidence: [...dialect.evidence],
    },
    channels: capture.channels.map((channel, i) => channelRecord(channel, found.polarity[i] ?? 0)),
    sync:
      found.sync.length === 0
        ? null
        : { seen: count('seen'), bridged: count('bridged'), rejected: count('rejected') },
    events: found.events.length,
    partial: found.events.filter((e) => e.flags.includes('partial')).length,
    wasted: found.events.filter((e) => e.kind === 'wasted').length,
    speed: {
      mean_rpm: figureRecord(speed.mean),
      spread_rpm: measuredRecord(speed.spread),
      swing_rpm: measuredRecord(speed.swing),
      swing_period_s: measuredRecord(speed.swingPeriod),
    },
    remarks: remarkRecords(texts, found.remarks),
  }
}

/** Remarks on a capture's quality with their sentences: the only part of its record that is in a language. */
export const remarkRecords = (texts: Texts, remarks: readonly QualityRemark[]): CaptureRecord['remarks'] =>
  remarks.map((r) => ({
    code: r.code,
    forbids: [...r.forbids],
    cylinders: [...(r.cylinders ?? [])],
    says: statement(texts, sentenceOf(REMARK_WORDS[r.code].says, r.args)),
  }))

function channelRecord(channel: Channel, polarity: 1 | -1 | 0): CaptureRecord['channels'][number] {
  const { entry } = channel
  const stated = entry.carries !== 'secondary' || ratioStated(entry)
  const own = (value: number): number => (stated ? value : asStated(value, false).value)
  const seen = entry.carries === 'sync' ? entry.cylinder : entry.cylinders
  return {
    column: entry.column,
    carries: entry.carries,
    cylinders: Array.isArray(seen) ? seen.join(' ') : String(seen ?? ''),
    unit: stated ? channel.unit : 'V',
    polarity: polarity > 0 ? 'positive' : polarity < 0 ? 'negative' : 'not applicable',
    quantum: toDigits(own(channel.quantum), 4),
    limits: channel.limits ? [end(own(channel.limits[0])), end(own(channel.limits[1]))] : null,
    limits_from: channel.limitsFrom,
    clipped_samples: channel.clippedSamples,
  }
}

/** An end of the recorder's range; null where nothing shows. */
const end = (limit: number): number | null => (Number.isFinite(limit) ? toDigits(limit) : null)
