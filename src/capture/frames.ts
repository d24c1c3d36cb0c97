import type { OddStep, TimeFindings } from './time-check.ts'

/** One of the stretches a triggered recorder writes: its first row, and the file's own time of that row, s. */
export interface Frame {
  row: number
  clockS: number
}

/** A clock that runs evenly within frames and stands between them. */
export interface FramedClock {
  frames: readonly Frame[]
  startS: number
  sampleS: number
  jumps: readonly { row: number; extraS: number }[]
}

/** A frame that shows a whole event is at least this long, s and rows; most rows have to lie in such frames, or it is damage. */
const LEAST_FRAME_S = 4e-3
const LEAST_FRAME_ROWS = 64
const LEAST_WHOLE_SHARE = 0.9
/** A step this many times the usual one is a gap. */
const GAP_SHARE = 1.5
/** A block that starts again starts at the first block's time, to so many steps or this share of a block. */
const RESTART_STEPS = 2
const RESTART_SHARE = 0.05
/** Change of the rate from frame to frame that no recorder's clock has. */
const MAX_DRIFT = 1e-3
/** Time put between frames whose distance the file does not tell, s: longer than any working cycle, so that nothing is counted across. */
const PAUSE_S = 1

/**
 * Frames behind a time column whose only odd steps are gaps, or only restarts of the time, with whole events between.
 * Samples missing at random make short stretches and give undefined, as does a rate that changes.
 *
 * @param found  what the column showed, in its own unit of `unitS` seconds
 */
export function framesByTime(found: TimeFindings, unitS: number): FramedClock | undefined {
  const breaks = breaksOf(found)
  if (!breaks) return undefined
  const starts = [{ row: 0, at: found.first }, ...breaks.map(({ row, after }) => ({ row, at: after }))]
  const ends = [...breaks.map(({ before }) => before), found.last]
  const rows = starts.map(({ row }, i) => (starts[i + 1]?.row ?? found.rows) - row)
  const spans = ends.map((end, i) => end - starts[i]!.at)
  const steps = rows.reduce((sum, n) => sum + n - 1, 0)
  const step = spans.reduce((sum, span) => sum + span, 0) / steps
  const even = spans.every((span, i) => {
    const digit = (2 * found.resolutionAt(starts[i]!.row)) / Math.max(1, rows[i]! - 1)
    return rows[i]! < 2 || Math.abs(span / (rows[i]! - 1) - step) <= MAX_DRIFT * step + digit
  })
  if (!even || !areWhole(rows, step * unitS)) return undefined
  const extras = breaks.map(({ before, after }) =>
    after < before ? PAUSE_S : (after - before - step) * unitS,
  )
  return {
    frames: starts.map(({ row, at }) => ({ row, clockS: at * unitS })),
    startS: found.first * unitS,
    sampleS: step * unitS,
    jumps: breaks.map(({ row }, i) => ({ row, extraS: extras[i]! })),
  }
}

/** The steps that part frames; undefined where a step is odd in another way, or the time runs back to anywhere else. */
function breaksOf({ odd, backwards, step, first }: TimeFindings): readonly OddStep[] | undefined {
  const isListed = odd.count === odd.listed.length && backwards.count === backwards.listed.length
  if (!isListed || odd.count + backwards.count === 0 || !(step > 0)) return undefined
  if (backwards.count === 0)
    return odd.listed.every((o) => o.after - o.before > GAP_SHARE * step) ? odd.listed : undefined
  const restarts = ({ before, after }: OddStep): boolean =>
    Math.abs(after - first) <= Math.max(RESTART_STEPS * step, RESTART_SHARE * (before - after))
  return odd.count === 0 && backwards.listed.every(restarts) ? backwards.listed : undefined
}

/** Frames of equal standing that start at the rows given, where no column gives the time; undefined where they hold no whole events. */
export function framesByRows(
  walls: readonly number[],
  { rows, startS, sampleS }: { rows: number; startS: number; sampleS: number },
): FramedClock | undefined {
  const starts = [0, ...walls.filter((row) => row > 0 && row < rows)]
  const lengths = starts.map((row, i) => (starts[i + 1] ?? rows) - row)
  if (starts.length < 2 || !areWhole(lengths, sampleS)) return undefined
  return {
    frames: starts.map((row) => ({ row, clockS: startS })),
    startS,
    sampleS,
    jumps: starts.slice(1).map((row) => ({ row, extraS: PAUSE_S })),
  }
}

function areWhole(rows: readonly number[], sampleS: number): boolean {
  const total = rows.reduce((sum, n) => sum + n, 0)
  const isWhole = (n: number): boolean => n >= LEAST_FRAME_ROWS && n * sampleS >= LEAST_FRAME_S
  const whole = rows.filter(isWhole).reduce((sum, n) => sum + n, 0)
  return whole >= LEAST_WHOLE_SHARE * total
}
