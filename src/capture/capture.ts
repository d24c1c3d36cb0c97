import type { Problem } from '../problems/problem.ts'
import type { Frame } from './frames.ts'
import type { CaptureEntry, ChannelEntry } from '../job/schema.ts'

/** How the text of a file is to be read, and why it was taken so. */
export interface Dialect {
  encoding: 'utf-8' | 'utf-16le' | 'utf-16be' | 'latin1'
  separator: ',' | ';' | '\t' | ' '
  decimal: '.' | ','
  /** Mark between groups of three digits; '' where none is used. */
  thousands: '' | '.' | ',' | ' ' | "'"
  /** False where the head holds whole numbers only, so that `decimal` is not yet proven. */
  decimalSeen: boolean
  /** What ends a line; a carriage return before a line feed belongs to the line end. */
  lineEnd: '\n' | '\r'
  /** Lines before the header (or before the data, without one). */
  preambleLines: number
  /** Header names, or undefined for a file without a header. */
  header: readonly string[] | undefined
  unitsRow: readonly string[] | undefined
  /** 1-based line of the header. */
  headerLine: number | undefined
  /** Lines above the data that hold figures as its rows do; absent for most files. */
  rowsAbove?: RowsAbove | undefined
  /** A line of names right above the data whose number of cells is not the data's. */
  mismatchedHeader: { line: number; cells: number } | undefined
  /** Byte offset of the first data row in the unpacked text (for UTF-16: in that text as UTF-8). */
  dataOffset: number
  /** 1-based line of the first data row. */
  dataLine: number
  columns: number
  /** Columns of counts in hex without a mark, 0-based; absent for most files. */
  hex?: readonly number[] | undefined
  /** One short reason each choice was made, for peek and for the record. */
  evidence: readonly string[]
}

/** Lines that are not used though they look like rows: the first of the worst kind, and how many of that kind. */
export interface RowsAbove {
  line: number
  count: number
  text: string
  /** Alike; of another number of cells; or several in one line, by line ends of another kind. */
  kind: 'alike' | 'ragged' | 'joined'
  cells: number
}

/** One decoded channel in its base unit: kV for secondary, V for sync and primary-voltage, A, rpm. */
export interface Channel {
  entry: ChannelEntry
  /** shape (rows); scale and unit applied, polarity not: as recorded. Over-range cells hold the limit they stand for. */
  data: Float32Array
  unit: 'kV' | 'V' | 'A' | 'rpm' | 'Hz'
  /** Smallest step between values found in the file, in `unit`: the recorder's quantum. 0 where none shows. */
  quantum: number
  /** Recorder limits in `unit` (declared, or inferred); undefined where none shows. low < high; an end that does not show is infinite. */
  limits: readonly [number, number] | undefined
  limitsFrom: 'declared' | 'flat tops' | 'over-range words' | 'none'
  /** Samples at a limit. */
  clippedSamples: number
}

/** A capture (or slow trace) on one evenly spaced clock. */
export interface Recording {
  file: string
  dialect: Dialect
  rows: number
  /** Time of the first row on the file's own clock, s (0 where the file has no time column). */
  startS: number
  sampleS: number
  /**
   * Time of every row, s, only where the spacing is uneven (slow traces may be; captures may not).
   * Undefined means row i is at startS + i * sampleS.
   */
  timesS: Float64Array | undefined
  /**
   * Places where an otherwise even clock jumps (dropped or repeated rows, each also a warning); empty for most files.
   * `row` is the first row after the jump, `extraS` what its step has beyond `sampleS`, negative for a repeated stamp.
   */
  jumps?: readonly { row: number; extraS: number }[]
  /**
   * Frames of a triggered recorder, in order; empty or absent where the record is one. Every frame but the first begins
   * at a jump. Where the file does not tell the time between them, the jump stands for a pause.
   */
  frames?: readonly Frame[]
  channels: readonly Channel[]
  warnings: readonly Problem[]
  /** SHA-256 of the file's bytes as stored, lower-case hex, taken while reading. */
  sha256: string
  bytes: number
}

export interface Capture extends Recording {
  entry: CaptureEntry
}
