import { readColumns, type ColumnsWanted, type FileColumns } from '../capture/read-columns.ts'
import type { ReadingLimits } from '../limits/reading-limits.ts'
import { JobError, type Problem } from '../problems/problem.ts'
import type { TimeGuess } from './guess-time.ts'

/** Text looked at: seconds of a fast recorder, decoded in a fraction of one. */
const PEEK_BYTES = 8 * 2 ** 20
/** Words recorders write for a sample beyond their range; no other word is taken for one. */
const OVER_RANGE =
  /^[-+]?(?:inf(?:inity)?|∞|over(?:flow|range)?|under(?:flow|range)?|ovl|ol|ofl|clip(?:ped)?)$/i
/** Readings tried: words for clipped samples and an uneven clock each cost another. */
const MOST_READINGS = 4

/** A file as it could be read: with these words for clipped samples, on an even clock or not. */
export interface ReadLeniently {
  columns: FileColumns
  overRange: readonly string[]
  even: boolean
  refusals: readonly Problem[]
}

interface Attempt {
  file: string
  time: TimeGuess
  sampleRateHz: number | undefined
  columns: ColumnsWanted['columns']
  overRange: readonly string[]
  limits: ReadingLimits
}

/**
 * Reads as a capture. Where words for clipped samples stand in the way they are taken as such and named; where the clock
 * is uneven the file is read as a slow trace, and what refuses it as a capture is handed on.
 */
export async function readLeniently(path: string, attempt: Attempt): Promise<ReadLeniently> {
  let { overRange } = attempt
  let refusals: readonly Problem[] = []
  for (let turn = 1; ; turn++) {
    const even = refusals.length === 0
    try {
      const columns = await readColumns(
        path,
        { file: attempt.file, time: clockOf(attempt), even, columns: attempt.columns, overRange },
        { partBytes: PEEK_BYTES, limits: attempt.limits },
      )
      return { columns, overRange, even, refusals }
    } catch (cause) {
      if (!(cause instanceof JobError) || turn === MOST_READINGS) throw cause
      const words = wordsIn(cause.problems).filter((word) => !overRange.includes(word))
      const isClock = even && cause.problems.every((p) => p.severity === 'warn' || p.code.startsWith('time-'))
      if (words.length > 0) overRange = [...overRange, ...words]
      else if (isClock) refusals = cause.problems
      else throw cause
    }
  }
}

/** Until its unit is settled a time column is read in seconds; without one, rows stand a second apart. */
function clockOf({ time, sampleRateHz }: Attempt): ColumnsWanted['time'] {
  if (sampleRateHz !== undefined) return { sampleRateHz }
  return time.kind === 'column' ? { index: time.index, unit: time.unit ?? 's' } : { sampleRateHz: 1 }
}

const wordsIn = (problems: readonly Problem[]): string[] => [
  ...new Set(
    problems.flatMap((p) =>
      'found' in p.args && p.code === 'not-a-number' && OVER_RANGE.test(String(p.args.found))
        ? [String(p.args.found)]
        : [],
    ),
  ),
]
