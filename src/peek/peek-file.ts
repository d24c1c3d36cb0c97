import { classOf, plainCell } from '../capture/cell-text.ts'
import type { Dialect } from '../capture/capture.ts'
import { dialectOfFile } from '../capture/find-dialect.ts'
import { preambleOf } from '../capture/preamble.ts'
import { firstRows } from '../capture/first-rows.ts'
import { furtherFrames } from '../capture/frame-columns.ts'
import { readingLimits, type ReadingLimits } from '../limits/reading-limits.ts'
import { describeFile } from './describe-file.ts'
import type { Drawable } from './draw-columns.ts'
import { guessTime } from './guess-time.ts'
import type { Peeked } from './peeked.ts'
import type { ColumnsWanted } from '../capture/read-columns.ts'
import { readLeniently } from './read-leniently.ts'

/** Rows from which columns are told apart. */
const FIRST_ROWS = 200

/** What a look found, and the samples to draw it from. */
export interface Look {
  peeked: Peeked
  drawable: Drawable
}

/**
 * Looks at a file about which nothing is known: no job, no names.
 *
 * @param sampleRateHz  of a file without a time column, where it is known
 * @throws JobError  where the file cannot be read at all
 */
export async function peekFile(
  path: string,
  about: { file: string; sampleRateHz: number | undefined },
  limits: ReadingLimits = readingLimits(),
): Promise<Look> {
  const { head, dialect } = await dialectOfFile(path, { file: about.file, names: [], words: [] }, limits)
  const rows = firstRows({ head, dialect }, FIRST_ROWS)
  const time = guessTime(dialect, rows)
  const preamble = preambleOf({ head, dialect })
  // A rate that is said goes before the file's own; the file's own only where no column tells the time.
  const written = time.kind === 'column' ? undefined : preamble.rate?.hz
  const sampleRateHz = about.sampleRateHz ?? written
  const figures = figureColumns(dialect, rows).filter(
    ({ index }) => time.kind === 'none' || index !== time.index,
  )
  const columns = framesJoined(dialect, figures)
  const read = await readLeniently(path, {
    file: about.file,
    time,
    sampleRateHz,
    columns,
    overRange: [],
    limits,
  })
  const rateFrom = about.sampleRateHz === undefined ? 'preamble' : 'said'
  return describeFile(read, { file: about.file, time, sampleRateHz, rateFrom, preamble })
}

/**
 * Columns that are stretches of one signal put together, as reading a capture does it; those beside them have other
 * lengths and are left out.
 */
function framesJoined(
  dialect: Dialect,
  figures: readonly { index: number; name: string }[],
): ColumnsWanted['columns'] {
  const others = new Set(
    Array.from({ length: dialect.columns }, (_, i) => i).filter((i) => !figures.some((f) => f.index === i)),
  )
  const joined = new Set<number>()
  const all = figures.flatMap(({ index, name }) => {
    if (joined.has(index)) return []
    const later = furtherFrames(dialect, index, others)
    later.forEach((at) => joined.add(at))
    return [{ index, name, later }]
  })
  const most = Math.max(0, ...all.map(({ later }) => later.length))
  return all.filter(({ later }) => later.length === most)
}

/** Columns whose cells are figures more often than words or nothing: settings stand beside the first rows of some. */
function figureColumns(
  { columns, header, hex }: Dialect,
  rows: readonly (readonly string[])[],
): { index: number; name: string }[] {
  return Array.from({ length: columns }, (_, index) => ({
    index,
    name: header?.[index] || String(index + 1),
  })).filter(({ index }) => {
    if (hex?.includes(index)) return true
    const cells = rows.map((row) => plainCell(row[index] ?? ''))
    return cells.filter((cell) => classOf(cell) === 'number').length * 2 > cells.length
  })
}
