import type { CaptureEntry, TraceEntry } from '../job/schema.ts'
import type { Problem } from '../problems/problem.ts'
import type { Recording } from './capture.ts'
import type { ColumnPlan } from './columns.ts'
import { backwards, evenClock } from './sampling.ts'
import type { TimeFindings } from './time-check.ts'

/** The clock part of a recording, with what was found on the way. */
export type RecordingClock = Pick<Recording, 'startS' | 'sampleS' | 'timesS' | 'jumps' | 'frames'> & {
  problems: readonly Problem[]
  evidence: readonly string[]
  /** No column gives the time: a rate does. */
  untimed?: boolean
}

/**
 * The clock of a recording: from the declared rate, or from the time column. A capture must be even; a trace that is
 * not keeps the time of every row, `sampleS` then being the mean step.
 * @param read  entry and columns; what the time column showed; its stamps in the file's unit, for traces
 */
export function clockOfRecording(read: {
  entry: CaptureEntry | TraceEntry
  plan: ColumnPlan
  found: TimeFindings | undefined
  times: Float64Array | undefined
}): RecordingClock {
  const { entry, plan, found, times } = read
  if ('sample_rate_hz' in entry.time) {
    return {
      startS: 0,
      sampleS: 1 / entry.time.sample_rate_hz,
      timesS: undefined,
      jumps: [],
      frames: [],
      untimed: true,
      problems: [],
      evidence: [],
    }
  }
  if (!found || !plan.time) throw new Error('a time column was planned but not followed')
  const about = { file: entry.file, unitS: plan.time.unitS, column: plan.time.index + 1 }
  const even = evenClock(found, about)
  const isEven = even.clock !== undefined && even.clock.jumps.length === 0
  if (times === undefined || isEven || found.rows < 2 || !(found.last > found.first)) {
    const clock = even.clock ?? { startS: NaN, sampleS: NaN, jumps: [], frames: [] }
    return { ...clock, timesS: undefined, problems: even.problems, evidence: even.evidence }
  }
  const back = backwards(found, about)
  return {
    startS: found.first * about.unitS,
    sampleS: ((found.last - found.first) / (found.rows - 1)) * about.unitS,
    jumps: [],
    frames: [],
    timesS: times.map((time) => time * about.unitS),
    problems: back ? [back] : [],
    evidence: ['time of every row'],
  }
}
