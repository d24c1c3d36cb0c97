import type { Recording } from '../../capture/capture.ts'
import { thinLine } from '../../maths/thin-line.ts'
import type { FigureName, MeasuredEvent } from '../../metrics/figures.ts'
import type { DrawnSpeed, DrawnTraces } from '../../records/drawn-traces.ts'
import type { EventRow } from '../../records/event-row.ts'
import { traceMarkOf } from '../../records/parts/marks.ts'
import type { Result } from '../../records/result.ts'
import { needsRatio } from '../../records/parts/figure-record.ts'
import { ratioUnknown } from '../../verdicts/gates/ratio-unknown.ts'
import type { MeasuredCapture } from './measure-captures.ts'

/** Columns a speed chart can show on paper at 300 dpi; more points are thinned to the least and greatest of each column. */
const SPEED_COLUMNS = 600

/** Rows of events.csv, in the order of job.yaml's captures and of time. */
export function eventRows(captures: readonly MeasuredCapture[]): EventRow[] {
  return captures.flatMap((c) => {
    const unknown = c.remarks.filter((r) => r.code === ratioUnknown.id)
    const kvKnown = (e: MeasuredEvent): boolean =>
      !unknown.some((r) => !r.cylinders || e.cylinder === undefined || r.cylinders.includes(e.cylinder))
    return c.events.map((e): EventRow => ({
      stage: c.entry.stage,
      capture: c.entry.file,
      cylinder: e.cylinder,
      event: e.number,
      breakdownS: e.clockS ?? e.breakdownS,
      frame: e.frame === undefined ? undefined : e.frame + 1,
      figures: presentFigures(e, kvKnown(e)),
      firingAtLeastKv: kvKnown(e) && topMissed(e) ? e.topKv : undefined,
      class: e.class,
      flags: e.flags,
    }))
  })
}

/** The recorder cut off or missed the top of the firing line. */
const topMissed = ({ figures: { firingKv } }: MeasuredEvent): boolean =>
  !firingKv.ok && (firingKv.why === 'clipped' || firingKv.why === 'under-sampled')

function presentFigures(event: MeasuredEvent, kvKnown: boolean): EventRow['figures'] {
  const present: Partial<Record<FigureName, number>> = {}
  for (const [name, figure] of Object.entries(event.figures))
    if (figure.ok && (kvKnown || !needsRatio(name as FigureName))) present[name as FigureName] = figure.value
  return present
}

/** The thinned lines for the charts. */
export function drawnTraces(
  captures: readonly MeasuredCapture[],
  traces: ReadonlyMap<string, Recording>,
  result: Result,
): DrawnTraces {
  return {
    sparkLines: captures.flatMap((c) => c.drawn),
    speeds: [
      ...[...traces].map(([file, trace]) => traceSpeed(file, trace, result)),
      ...captures
        .map(eventSpeed)
        .filter((s) => s.line.x.length > 1)
        .flatMap((s) => [s, ...asTrace(s, result)]),
    ],
  }
}

function traceSpeed(file: string, trace: Recording, result: Result): DrawnSpeed {
  const channel = trace.channels.find((c) => c.entry.carries === 'speed')!
  const x =
    trace.timesS ?? Float64Array.from({ length: trace.rows }, (_, i) => trace.startS + i * trace.sampleS)
  return withSprays(
    { file, from: 'trace', stage: 'before', line: thinLine(x, channel.data, SPEED_COLUMNS), sprays: [] },
    result,
  )
}

/** The speed from a capture's events once more as a trace, where tests name the capture as theirs. */
const asTrace = (speed: DrawnSpeed, result: Result): DrawnSpeed[] =>
  [withSprays({ ...speed, from: 'trace' }, result)].filter((s) => s.sprays.length > 0)

function withSprays(bare: DrawnSpeed, result: Result): DrawnSpeed {
  const tests = result.tests.filter((t) => t.trace === bare.file && t.from_s !== null && t.to_s !== null)
  return {
    ...bare,
    stage: tests[0]?.stage ?? bare.stage,
    ...(tests[0]?.instant ? { mark: traceMarkOf(tests[0].instant) } : {}),
    sprays: tests.map((t) => ({
      fromS: t.from_s!,
      toS: t.to_s!,
      place: t.place ?? '',
      finding: t.finding,
      mark: t.mark,
    })),
  }
}

/** Speed over a capture: one point an event that has a speed. */
function eventSpeed({ entry, events }: MeasuredCapture): DrawnSpeed {
  const points = events.flatMap((e) =>
    e.figures.rpm.ok ? [[e.breakdownS, e.figures.rpm.value] as const] : [],
  )
  const line = thinLine(
    points.map((p) => p[0]),
    points.map((p) => p[1]),
    SPEED_COLUMNS,
  )
  return { file: entry.file, from: 'events', stage: entry.stage, line, sprays: [] }
}
