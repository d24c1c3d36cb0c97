import { limit, type Limits } from '../../limits/limits.ts'
import { seriesOf, type TraceSource } from '../check-traces.ts'
import { readTrace, type ReadTrace, type UnreadTrace } from './read-trace.ts'

/** Something done to the intake while a trace ran: a spray, or a port closed or opened at one instant. */
export interface TraceEvent {
  /** Index of its test in the list of tests. */
  index: number
  kind: 'spray' | 'close' | 'open'
  trace: string
  fromS: number
  /** End of a spray; of a port the same instant. */
  toS: number
  /** The same for all that count together. */
  key: string
}

/** An event with the trace it was done on, where that could be read. */
export interface ReadEvent {
  event: TraceEvent
  file: string
  trace: ReadTrace | UnreadTrace
  /** Place of the event among those of its trace. */
  at: number
  blurS: number
}

export const isRead = (trace: ReadTrace | UnreadTrace): trace is ReadTrace => !('why' in trace)

/** Each trace read with all that was done on it; traces without a speed are left out. */
export function readEvents(events: readonly TraceEvent[], source: TraceSource, limits: Limits): ReadEvent[] {
  return [...new Set(events.map((e) => e.trace))].flatMap((file) => {
    const series = seriesOf(file, source)
    if (!series) return []
    const on = events.filter((e) => e.trace === file)
    const stepsS = on.filter((e) => e.kind !== 'spray').map((e) => e.fromS)
    const read = (steps: boolean) =>
      readTrace(
        series,
        on.map((e) => ({ place: e.key, fromS: e.fromS, toS: e.toS })),
        limit(limits, 'throttleRpm'),
        { stepsS, steps },
      )
    // Looked at twice where both were done on it: what a spray does ends, what a cap does stays.
    const sprays = stepsS.length < on.length ? read(false) : undefined
    const ports = stepsS.length > 0 ? read(true) : undefined
    return on.map((event, at) => {
      const trace = (event.kind === 'spray' ? sprays : ports)!
      return { event, file, trace, at, blurS: series.blurS ?? 0 }
    })
  })
}

/** The readable traces by file. */
export const tracesOf = (read: readonly ReadEvent[]): ReadonlyMap<string, ReadTrace> =>
  new Map(read.flatMap((r) => (isRead(r.trace) ? [[r.file, r.trace] as const] : [])))
