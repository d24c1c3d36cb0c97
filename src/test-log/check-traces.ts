import type { Recording } from '../capture/capture.ts'
import { excerpt } from '../job/excerpt.ts'
import { LOG_FILE as FILE } from '../job/own-files.ts'
import type { Job } from '../job/schema.ts'
import { near } from '../problems/nearest.ts'
import { problem, type Problem } from '../problems/problem.ts'
import type { LogEntry } from './entry.ts'
import { speedSeries, type SpeedSeries } from './spray/speed-grid.ts'

/** What rows may name as `trace`. */
export interface TraceSource {
  traces: ReadonlyMap<string, Recording>
  /** Engine speed from the events of captures, by file; empty where captures are not decoded. */
  speeds: ReadonlyMap<string, SpeedSeries>
  job: Job
}

/** Problems of the trace, from_s and to_s cells of a row; none for a trace that itself could not be read (said elsewhere). */
export function checkTrace(entry: LogEntry, source: TraceSource): Problem[] {
  const { trace, step, line } = entry
  const place = { file: FILE, line }
  if (trace === undefined) return []
  const declared = [...(source.job.traces ?? []), ...source.job.captures].map((t) => t.file)
  if (!declared.includes(trace))
    return [problem('unknown-trace', place, { found: excerpt(trace), nearest: near(trace, declared) })]
  const isCap = (step === 'cap' || step === 'uncap') && entry.fromS !== undefined
  if (step !== 'spray' && !isCap) return []
  const problems: Problem[] = []
  for (const column of isCap ? [] : (['from_s', 'to_s'] as const)) {
    if ((column === 'from_s' ? entry.fromS : entry.toS) === undefined)
      problems.push(problem('missing-cell', place, { column, step }))
  }
  const series = seriesOf(trace, source)
  if (series === undefined && (source.traces.has(trace) || source.speeds.has(trace))) {
    problems.push(
      problem('wrong-cell', place, { column: 'trace', found: trace, expected: 'phrase.speed-trace' }),
    )
  }
  return series ? [...problems, ...checkTimes(entry, series)] : problems
}

/** Read once a trace, however many rows name it. */
const read = new WeakMap<Recording, SpeedSeries | undefined>()

/** Engine speed of a trace, or from the events of a capture; undefined where it has none or could not be read. */
export function seriesOf(trace: string, source: TraceSource): SpeedSeries | undefined {
  const recording = source.traces.get(trace)
  if (recording) {
    const series = read.has(recording) ? read.get(recording) : speedSeries(recording)
    read.set(recording, series)
    return series
  }
  const series = source.speeds.get(trace)
  return series && series.timesS.length > 0 ? series : undefined
}

/** A cap has one instant, or two; a spray has a start and an end. */
function checkTimes({ step, fromS, toS: end, line }: LogEntry, series: SpeedSeries): Problem[] {
  const toS = end ?? (step === 'spray' ? undefined : fromS)
  if (fromS === undefined || toS === undefined) return []
  const place = { file: FILE, line }
  if (end !== undefined && toS <= fromS)
    return [
      problem('wrong-cell', place, { column: 'to_s', found: String(toS), expected: 'phrase.after-from' }),
    ]
  const first = series.timesS[0] ?? 0
  const last = series.timesS[series.timesS.length - 1] ?? 0
  if (fromS >= first && toS <= last) return []
  const shown = (s: number) => s.toFixed(2)
  return [
    problem('spray-outside-trace', place, {
      from: shown(fromS),
      to: shown(toS),
      start: shown(first),
      end: shown(last),
    }),
  ]
}
