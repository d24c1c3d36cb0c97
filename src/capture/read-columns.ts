import type { CaptureEntry, ChannelEntry, TimeUnit, TraceEntry } from '../job/schema.ts'
import type { Channel, Recording } from './capture.ts'
import { UNIT_S, type ColumnPlan } from './columns.ts'
import { decodeFile, recordingOf } from './read-capture.ts'
import { readingLimits, type ReadingLimits } from '../limits/reading-limits.ts'
import { TextPart } from './text-part.ts'

/** A column as it stands in the file: figures in the file's own unit, whatever that is. */
export interface FileColumn extends Pick<
  Channel,
  'data' | 'quantum' | 'limits' | 'limitsFrom' | 'clippedSamples'
> {
  /** 0-based. */
  index: number
  /** Columns that hold later stretches of the same signal, joined to `data` in their order. */
  later: readonly number[]
  name: string
}

/** The start of a file, or all of it, decoded without a job. */
export interface FileColumns extends Pick<
  Recording,
  'dialect' | 'rows' | 'startS' | 'sampleS' | 'timesS' | 'jumps' | 'warnings'
> {
  columns: readonly FileColumn[]
  /** Bytes of text read, unpacked, and whether that was all. */
  textBytes: number
  whole: boolean
  /** Bytes of text in all, as far as the file tells; for a packed file what its own length field says. */
  expectedTextBytes: number
  fileBytes: number
  gzip: boolean
}

/** Which columns of a file to read, and what is taken for its clock. */
export interface ColumnsWanted {
  file: string
  /** 0-based column and its unit, or a rate; an even clock is asked for where `even`. */
  time: { index: number; unit: TimeUnit } | { sampleRateHz: number }
  even: boolean
  /** 0-based, with their names. */
  columns: readonly { index: number; name: string; later: readonly number[] }[]
  overRange: readonly string[]
}

/**
 * Decodes columns of a file as they stand, up to `partBytes` of its text.
 * @throws JobError  as reading a capture does, but for units, which are left as found
 */
export async function readColumns(
  path: string,
  wanted: ColumnsWanted,
  { partBytes, limits = readingLimits() }: { partBytes: number; limits?: ReadingLimits },
): Promise<FileColumns> {
  const plan = planOf(wanted)
  const entry = entryOf(wanted)
  return decodeFile(
    path,
    { entry, limits, planOf: () => ({ ok: true, plan }), part: () => new TextPart(partBytes) },
    async (decoded, stored) => {
      const { dialect, rows, startS, sampleS, timesS, jumps, channels, warnings } = recordingOf(
        decoded,
        entry,
      )
      const { bytes: textBytes, whole, expected: expectedTextBytes } = decoded.part!
      const magic = await stored.peek(0, 2)
      return {
        dialect,
        rows,
        startS,
        sampleS,
        timesS,
        jumps: jumps ?? [],
        textBytes,
        whole,
        expectedTextBytes,
        fileBytes: stored.size,
        gzip: magic[0] === 0x1f && magic[1] === 0x8b,
        // Its last row may be cut where the part ends: that is our doing.
        warnings: whole ? warnings : warnings.filter((w) => w.code !== 'row-cut-off'),
        columns: channels.map(({ data, quantum, limits: range, limitsFrom, clippedSamples }, i) => ({
          ...wanted.columns[i]!,
          data,
          quantum,
          limits: range,
          limitsFrom,
          clippedSamples,
        })),
      }
    },
  )
}

/** The factor 1 leaves figures as they stand; the unit is a form to fill and is not handed on. */
function planOf({ time, columns }: ColumnsWanted): ColumnPlan {
  return {
    time:
      'index' in time
        ? { index: time.index, name: String(time.index + 1), unitS: UNIT_S[time.unit] }
        : undefined,
    channels: columns.map(({ index, name, later }) => ({
      entry: channelOf(index),
      index,
      later,
      name,
      unit: 'V',
      factor: 1,
    })),
    warnings: [],
  }
}

const channelOf = (index: number): ChannelEntry => ({
  column: index + 1,
  carries: 'primary-voltage',
  unit: 'V',
  scale: 1,
  polarity: 'auto',
})

/** An entry that carries the file's name, clock and words; a capture where the clock must be even, else a trace. */
function entryOf({ file, time, even, columns, overRange }: ColumnsWanted): CaptureEntry | TraceEntry {
  const trace: TraceEntry = {
    file,
    channels: columns.map(({ index }) => channelOf(index)),
    over_range: [...overRange],
    time:
      'index' in time ? { column: time.index + 1, unit: time.unit } : { sample_rate_hz: time.sampleRateHz },
  }
  return even ? { ...trace, stage: 'before', condition: 'idle', engine: 'warm', taken: '' } : trace
}
