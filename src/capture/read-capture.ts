import type { CaptureEntry, TraceEntry } from '../job/schema.ts'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import { openByteSource, type ByteSource } from './byte-source.ts'
import type { Capture, Dialect, Recording } from './capture.ts'
import { finishChannel, rangeProblem } from './channels.ts'
import { Collector, type ChannelTarget, type ValueRange } from './collect.ts'
import { planColumns, type ChannelColumn, type ColumnPlan } from './columns.ts'
import { BARE_HEX, type RowPlan } from './decode-rows.ts'
import { findNumberStyle } from './decimal-sign.ts'
import { findDialect } from './find-dialect.ts'
import { framesByRows } from './frames.ts'
import { numberOf, plainCell, type NumberStyle } from './cell-text.ts'
import { lineEndsChange, OddRows, shown, type WantedColumn } from './odd-row.ts'
import { ProblemLog } from './problem-log.ts'
import { rateContradicted } from './rate-witness.ts'
import { readingLimits, type ReadingLimits } from '../limits/reading-limits.ts'
import { RowDecoder, StyleWanted } from './row-decoder.ts'
import { clockOfRecording, type RecordingClock } from './recording-clock.ts'
import { StoredBytes } from './stored-bytes.ts'
import { TextReader, type TextHead } from './text-head.ts'
import type { TextPart } from './text-part.ts'

/** Rows allowed for beyond the estimate before an array has to grow. */
const ROW_ESTIMATE_SPARE = 1.03
/** Stands for a decimal sign that is not known yet: no byte equals it, so that every sign is looked at. */
const NO_BYTE = 256
/** Rows reserved at least. */
const MIN_ROWS = 1024

/**
 * Reads a capture: evenly sampled, with the channels its entry names, in base units.
 *
 * @param path   absolute path, plain text or gzip
 * @param entry  the capture in job.yaml; problems carry `entry.file`
 * @throws JobError with every problem of the file: dialect, columns, units, figures, rows, time, packing, limits
 */
export async function readCapture(
  path: string,
  entry: CaptureEntry,
  limits: ReadingLimits = readingLimits(),
): Promise<Capture> {
  return { ...(await readRecording(path, entry, limits)), entry }
}

/** Reads a capture or a slow trace; a trace may be unevenly sampled and then keeps the time of every row. */
export async function readRecording(
  path: string,
  entry: CaptureEntry | TraceEntry,
  limits: ReadingLimits = readingLimits(),
): Promise<Recording> {
  return decodeFile(
    path,
    { entry, limits, planOf: planColumns, part: undefined },
    async (decoded, stored) => {
      const { sha256, bytes } = await stored.finish()
      return { ...recordingOf(decoded, entry), sha256, bytes }
    },
  )
}

/** How a file is to be decoded. */
export interface Decoding {
  entry: CaptureEntry | TraceEntry
  limits: ReadingLimits
  /** Finds the columns to decode, once the dialect is known. */
  planOf: typeof planColumns
  /** Reads at most this much of the text; undefined: all of it. Made anew for every reading. */
  part: (() => TextPart) | undefined
}

/**
 * Decodes a file, once more from its start where a sign of its figures shows late, and hands on what was read.
 * @throws JobError
 */
export async function decodeFile<T>(
  path: string,
  how: Decoding,
  finish: (decoded: Decoded, stored: StoredBytes) => T | Promise<T>,
): Promise<T> {
  try {
    return await readOnce(path, { ...how, style: undefined }, finish)
  } catch (error) {
    if (!(error instanceof StyleWanted)) throw error
    return await readOnce(path, { ...how, style: settledStyle(error, how.entry.file) }, finish)
  }
}

interface StyleSettled {
  style: NumberStyle
  evidence: string
}

/** What a sign means that first shows after the head. @throws JobError `ambiguous-dialect` */
function settledStyle(wanted: StyleWanted, file: string): StyleSettled {
  if (wanted.settled) return wanted.settled
  const found = findNumberStyle(wanted.cells, wanted.separator)
  if (found.ok) return found
  throw new JobError([
    problem('ambiguous-dialect', { file, line: wanted.line }, { first: found.first, second: found.second }),
  ])
}

/** @param about  style of numbers, where an earlier reading found out what the head does not show */
async function readOnce<T>(
  path: string,
  about: Decoding & Pick<Reading, 'style'>,
  finish: (decoded: Decoded, stored: StoredBytes) => T | Promise<T>,
): Promise<T> {
  const stored = await StoredBytes.open({ path, file: about.entry.file })
  try {
    const source = await openByteSource(stored, about.limits)
    const part = about.part?.()
    const decoded = await decode({ ...about, source: part ? startOf(source, part) : source })
    return await finish({ ...decoded, part }, stored)
  } finally {
    await stored.close()
  }
}

const startOf = (source: ByteSource, part: TextPart): ByteSource => ({
  ...source,
  expectedBytes: Math.min(source.expectedBytes, part.most),
  chunks: part.of(source),
})

interface Reading extends Omit<Decoding, 'part'> {
  source: ByteSource
  style: StyleSettled | undefined
}

const isCapture = (entry: CaptureEntry | TraceEntry): entry is CaptureEntry => 'engine' in entry

async function decode(reading: Reading): Promise<Omit<Decoded, 'part'>> {
  const { entry } = reading
  const text = new TextReader(reading.source.chunks, entry.file)
  const about = { file: entry.file, names: namesOf(entry), words: entry.over_range ?? [] }
  const { head, dialect: shown } = await findDialect(text, about, reading.limits)
  const dialect = reading.style
    ? {
        ...shown,
        ...reading.style.style,
        decimalSeen: true,
        evidence: [...shown.evidence, reading.style.evidence],
      }
    : shown
  const planned = reading.planOf(entry, dialect)
  if (!planned.ok) throw new JobError(planned.problems)
  const log = new ProblemLog(entry.file)
  log.add(...planned.plan.warnings, ...rowsAbove(dialect, entry.file))
  const against =
    'sample_rate_hz' in entry.time
      ? rateContradicted({ head, dialect }, { file: entry.file, rateHz: entry.time.sample_rate_hz })
      : undefined
  if (against) log.add(against)
  const { collector, odd } = await decodeBulk({ text, head, dialect, plan: planned.plan, log }, reading)
  return { dialect, plan: planned.plan, log, collector, odd }
}

/** Lines above the data that look like rows are told of; those of another form are refused as among the data. */
function rowsAbove({ rowsAbove: found, lineEnd, columns }: Dialect, file: string): Problem[] {
  if (!found) return []
  const { line, count, text, cells } = found
  const start = shown(text.trim())
  switch (found.kind) {
    case 'joined':
      return [lineEndsChange({ file, line, text, lineEnd })]
    case 'ragged':
      return [problem('ragged-row', { file, line }, { found: cells, expected: columns, count, text: start })]
    case 'alike':
      return [problem('rows-above', { file, line, severity: 'warn' }, { count, found: start })]
  }
}

/** The columns the job calls by name. */
function namesOf({ time, channels }: CaptureEntry | TraceEntry): string[] {
  const columns = [...('column' in time ? [time.column] : []), ...channels.map(({ column }) => column)]
  return columns.filter((column) => typeof column === 'string')
}

interface Bulk {
  text: TextReader
  head: TextHead
  dialect: Dialect
  plan: ColumnPlan
  log: ProblemLog
}

async function decodeBulk(
  { text, head, dialect, plan, log }: Bulk,
  reading: Reading,
): Promise<{ collector: Collector; odd: OddRows }> {
  const { entry, limits, source } = reading
  const wanted = wantedColumns(plan)
  const words = entry.over_range ?? []
  const odd = new OddRows(
    { dialect, single: dialect.columns === 1, wanted, words, mayBeEmpty: !isCapture(entry) },
    log,
  )
  const collector = new Collector(wanted, targetsOf(plan, { wanted, words, dialect }), {
    rows: Math.min(expectedRows(head, dialect, source.expectedBytes), limits.rows),
    keepTimes: !isCapture(entry),
  })
  const parts = { odd, log, firstLine: dialect.dataLine, lineBytes: limits.lineBytes }
  const decoder = new RowDecoder(rowPlan(dialect, wanted), parts, (batch) => {
    collector.take(batch)
    if (collector.rows > limits.rows) {
      throw new JobError([
        ...log.list(),
        problem('too-many-rows', { file: entry.file }, { limit: limits.rows }),
      ])
    }
  })
  decoder.push(head.bytes.subarray(dialect.dataOffset))
  for await (const chunk of text.rest()) decoder.push(chunk)
  decoder.end()
  return { collector, odd }
}

/** Columns to decode, in file order; one that serves twice is decoded once. */
function wantedColumns({ time, channels }: ColumnPlan): WantedColumn[] {
  const wanted = new Map<number, WantedColumn>()
  for (const { index, later, name } of channels)
    for (const at of [index, ...later]) wanted.set(at, { index: at, name, isTime: false, unitS: 1 })
  if (time) wanted.set(time.index, { ...time, isTime: true })
  return [...wanted.values()].sort((a, b) => a.index - b.index)
}

function targetsOf(
  plan: ColumnPlan,
  how: { wanted: readonly WantedColumn[]; words: readonly string[]; dialect: Dialect },
): ChannelTarget[] {
  const overRange = how.words
    .map((word) => numberOf(plainCell(word), how.dialect))
    .filter((value) => value !== undefined)
  const slots = new Map(how.wanted.map((column, slot) => [column.index, slot]))
  return plan.channels.flatMap(({ index, later, factor }) =>
    [index, ...later].map((at) => ({ slot: slots.get(at)!, factor, overRange })),
  )
}

function rowPlan(dialect: Dialect, wanted: readonly WantedColumn[]): RowPlan {
  const flags = new Uint8Array(dialect.columns)
  for (const { index } of wanted) flags[index] = dialect.hex?.includes(index) ? BARE_HEX : 1
  return {
    separator: dialect.separator.charCodeAt(0),
    decimal: dialect.decimalSeen ? dialect.decimal.charCodeAt(0) : NO_BYTE,
    lineEnd: dialect.lineEnd.charCodeAt(0),
    columns: dialect.columns,
    wanted: flags,
    width: wanted.length,
  }
}

/** Rows to reserve: the text's length by the mean length of the rows in the head. */
function expectedRows(head: TextHead, dialect: Dialect, textBytes: number): number {
  const seen = head.bytes.subarray(dialect.dataOffset)
  let rows = 1
  for (let at = seen.indexOf(dialect.lineEnd); at >= 0; at = seen.indexOf(dialect.lineEnd, at + 1)) rows++
  const expected = head.whole
    ? rows
    : (Math.max(textBytes - dialect.dataOffset, seen.length) / seen.length) * rows
  return Math.ceil(Math.max(MIN_ROWS, expected * ROW_ESTIMATE_SPARE))
}

/** What was decoded of a file, not yet looked at as a whole. */
export interface Decoded {
  dialect: Dialect
  plan: ColumnPlan
  log: ProblemLog
  collector: Collector
  odd: OddRows
  /** How much was read, where only a part was asked for. */
  part: TextPart | undefined
}

/** Clock and channels of what was decoded. @throws JobError when anything found refuses the file */
export function recordingOf(
  { dialect, plan, log, collector, odd }: Decoded,
  entry: CaptureEntry | TraceEntry,
): Omit<Recording, 'sha256' | 'bytes'> {
  const { data, ranges, times, time } = collector.end()
  if (collector.rows === 0 && !log.refuses) {
    log.add(problem('no-data-rows', { file: entry.file, line: dialect.dataLine }, { path: entry.file }))
  }
  log.throwIfRefused()
  const clock = framedClock(clockOfRecording({ entry, plan, found: time, times }), {
    rows: collector.rows,
    columns: 1 + (plan.channels[0]?.later.length ?? 0),
    odd,
    isCapture: isCapture(entry),
  })
  if (odd.secondHeader && clock.frames!.length === 0) {
    const { line, found } = odd.secondHeader
    log.add(problem('header-again', { file: entry.file, line }, { found }))
  } else log.add(...clock.problems)
  const channels = joinFrames(plan.channels, { data, ranges, rows: collector.rows })
  log.add(
    ...plan.channels
      .map((column, i) => rangeProblem(column, channels[i]!.range, entry.file))
      .filter((p) => p !== undefined),
  )
  log.throwIfRefused()
  return {
    file: entry.file,
    rows: channels[0]?.data.length ?? collector.rows,
    dialect: { ...dialect, evidence: [...dialect.evidence, ...clock.evidence, ...skippedEvidence(odd)] },
    startS: clock.startS,
    sampleS: clock.sampleS,
    jumps: clock.jumps,
    frames: clock.frames,
    timesS: clock.timesS,
    channels: plan.channels.map((column, i) => finishChannel(column, channels[i]!.data, channels[i]!.range)),
    warnings: log.list(),
  }
}

/** The clock of a recording with frames that its time column does not show: in columns, or in blocks without a time. */
function framedClock(
  clock: RecordingClock,
  { rows, columns, odd, isCapture }: { rows: number; columns: number; odd: OddRows; isCapture: boolean },
): RecordingClock {
  const { startS, sampleS } = clock
  if (!isCapture || clock.frames!.length > 0 || clock.jumps!.length > 0) return clock
  const about = { rows: rows * columns, startS, sampleS }
  const framed =
    columns > 1
      ? framesByRows(
          Array.from({ length: columns - 1 }, (_, i) => (i + 1) * rows),
          about,
        )
      : clock.untimed
        ? framesByRows(wallsOf(odd, rows), about)
        : undefined
  return framed
    ? { ...clock, ...framed, evidence: [...clock.evidence, `frames ${framed.frames.length}`] }
    : clock
}

/** Rows at which blocks begin: headers and titles do, blank lines where they part the rows into equal blocks. */
function wallsOf({ walls }: OddRows, rows: number): number[] {
  const within = walls.filter(({ row }) => row > 0 && row < rows)
  const told = within.filter(({ by }) => by !== 'blank')
  if (told.length > 0) return told.map(({ row }) => row)
  const starts = [0, ...within.map(({ row }) => row), rows]
  const lengths = starts.slice(1).map((row, i) => row - starts[i]!)
  return Math.max(...lengths) - Math.min(...lengths) <= 1 ? within.map(({ row }) => row) : []
}

/** A channel's frames one behind the other. */
function joinFrames(
  channels: readonly ChannelColumn[],
  { data, ranges, rows }: { data: readonly Float32Array[]; ranges: readonly ValueRange[]; rows: number },
): { data: Float32Array; range: ValueRange }[] {
  let first = 0
  return channels.map(({ later }) => {
    const [from, to] = [first, first + 1 + later.length]
    first = to
    if (later.length === 0) return { data: data[from]!, range: ranges[from]! }
    const joined = new Float32Array(rows * (to - from))
    for (let i = from; i < to; i++) joined.set(data[i]!, (i - from) * rows)
    const own = ranges.slice(from, to)
    return {
      data: joined,
      range: {
        low: Math.min(...own.map((r) => r.low)),
        high: Math.max(...own.map((r) => r.high)),
        lowMarks: own.reduce((sum, r) => sum + r.lowMarks, 0),
        highMarks: own.reduce((sum, r) => sum + r.highMarks, 0),
        stretches: own.flatMap((r, i) =>
          r.stretches.map((s) => ({ ...s, from: s.from + i * rows, to: s.to + i * rows })),
        ),
      },
    }
  })
}

function skippedEvidence({ skipped }: OddRows): string[] {
  const blank = skipped.blank === 0 ? [] : [`blank lines ${skipped.blank}`]
  return skipped.remarks === 0 ? blank : [...blank, `remark lines ${skipped.remarks}`]
}
