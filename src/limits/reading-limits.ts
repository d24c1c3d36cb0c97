import type { ReadingLimitKey } from './keys.ts'
import { limit, parseLimits, withValues, type LimitTable } from './limits.ts'
import { readTemplate } from './read-template.ts'

/** How much is read at most. A file beyond a limit is refused with a code, never cut silently. */
export interface ReadingLimits {
  /** Bytes of text of a capture or trace after unpacking: bounds the work a small packed file can cause. */
  textBytes: number
  /** The same as a multiple of the packed size. */
  ratio: number
  /** Data rows: bounds memory, 4 bytes a row and channel. */
  rows: number
  /** Cells in a row. */
  columns: number
  /** Bytes of one row. */
  lineBytes: number
  /** Bytes searched for the first data row. */
  headBytes: number
  /** Bytes of job.yaml: bounds the parser's work. */
  jobBytes: number
  /** Bytes of test-log.csv: bounds its rows. */
  logBytes: number
  /** Bytes of one photo. */
  photoBytes: number
}

/** Some reading limits set by the caller: key of templates/reading-limits.yaml -> value in its own unit. */
export type OwnReadingLimits = Readonly<Record<string, number>>

const READING_KEYS = Object.keys({
  captureMostMib: 0,
  captureMostRatio: 0,
  captureMostRows: 0,
  captureMostColumns: 0,
  rowMostKib: 0,
  headMostKib: 0,
  jobMostKib: 0,
  logMostKib: 0,
  photoMostMib: 0,
} satisfies Record<ReadingLimitKey, 0>) as ReadingLimitKey[]

const KIB = 1024
const MIB = 1024 * KIB

/** Reads templates/reading-limits.yaml. @throws ZodError when a limit lacks its unit or origin. */
export const loadReadingLimits = (): LimitTable<ReadingLimitKey> =>
  parseLimits(readTemplate('reading-limits.yaml'), READING_KEYS)

/**
 * The limits of reading in force.
 * @throws RangeError for a key that is none, or a value that is not above 0
 */
export function readingLimits(own: OwnReadingLimits = {}): ReadingLimits {
  const limits = withValues(loadReadingLimits(), own)
  const wrong = READING_KEYS.filter((key) => !(limits[key].value > 0))
  if (wrong.length > 0) throw new RangeError(`${wrong.join(', ')}: a limit of reading is above 0`)
  const bytes = (key: ReadingLimitKey, unit: number): number => Math.floor(limit(limits, key) * unit)
  return {
    textBytes: bytes('captureMostMib', MIB),
    ratio: limit(limits, 'captureMostRatio'),
    rows: limit(limits, 'captureMostRows'),
    columns: limit(limits, 'captureMostColumns'),
    lineBytes: bytes('rowMostKib', KIB),
    headBytes: bytes('headMostKib', KIB),
    jobBytes: bytes('jobMostKib', KIB),
    logBytes: bytes('logMostKib', KIB),
    photoBytes: bytes('photoMostMib', MIB),
  }
}
