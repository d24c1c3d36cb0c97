import type { Capture, Channel } from '../capture/capture.ts'
import { readCapture } from '../capture/read-capture.ts'
import { findEvents } from '../ignition/find-events.ts'
import type { CaptureEntry, Engine } from '../job/schema.ts'
import type { ReadingLimits } from '../limits/reading-limits.ts'
import { lookAtColumn } from '../peek/look-at-column.ts'
import { weighRoles } from '../peek/weigh-roles.ts'
import type { ProblemCode } from '../problems/codes.ts'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import { rateDoubt } from './rate-doubt.ts'

/** Rates and lengths that a recording of an engine can have: wide, since beyond them only a wrong unit of time lies. */
const RATE_HZ = { least: 2_000, most: 50e6 }
const LENGTH_S = { least: 0.02, most: 3600 }
/** Refusals that a column taken for another would end in as well. */
const MAY_BE_SWAPPED: readonly ProblemCode[] = ['unsupported-ignition', 'no-events', 'sync-lost']
/** Sureness from which samples speak against what job.yaml says of a column. */
const SURE = 0.75

/** A capture and its events. */
export interface Found {
  capture: Capture
  found: ReturnType<typeof findEvents>
}

/**
 * Reads a capture and finds its events.
 * @throws JobError
 */
export const readAndFind = async (
  path: string,
  entry: CaptureEntry,
  { engine, reading }: { engine: Engine; reading: ReadingLimits },
): Promise<Found> => findIn(await readCapture(path, entry, reading), engine)

/**
 * Finds the events of a capture. Where that fails, the mistakes that would make it fail are looked for, so that a wrong
 * unit of time or two columns taken for each other are told as what they are.
 * @throws JobError
 */
export function findIn(capture: Capture, engine: Engine): Found {
  const clock = clockProblem(capture)
  if (clock) throw new JobError([clock])
  try {
    const found = findEvents(capture, engine)
    const doubt = rateDoubt(capture, found, engine)
    return { capture: doubt ? { ...capture, warnings: [...capture.warnings, doubt] } : capture, found }
  } catch (cause) {
    if (!(cause instanceof JobError) || !cause.problems.some((p) => MAY_BE_SWAPPED.includes(p.code)))
      throw cause
    const off = rateOff(capture, engine)
    if (off) throw new JobError([off], { cause })
    const swapped = capture.channels
      .map((channel) => likeAnother(channel, capture))
      .filter((p) => p !== undefined)
    // What the ignition seemed to be follows from the mix-up and would only mislead.
    throw swapped.length > 0 ? new JobError(swapped, { cause }) : cause
  }
}

/** Whether the events show once the stated rate is taken for one off by ten: a nought too many or too few. */
function rateOff(capture: Capture, engine: Engine): Problem | undefined {
  if (!('sample_rate_hz' in capture.entry.time)) return undefined
  for (const factor of [10, 0.1]) {
    try {
      const { events } = findEvents({ ...capture, sampleS: capture.sampleS / factor }, engine)
      if (rateDoubt(capture, { events }, engine)) continue
      const asStated = events.map((event) => ({ ...event, breakdownS: event.breakdownS * factor }))
      const doubt = rateDoubt(capture, { events: asStated }, engine)
      if (doubt) return { ...doubt, severity: 'refuse' }
    } catch (cause) {
      if (!(cause instanceof JobError)) throw cause // nor are there events at that rate
    }
  }
  return undefined
}

function clockProblem({ file, rows, sampleS }: Capture): Problem | undefined {
  const [rateHz, lengthS] = [1 / sampleS, rows * sampleS]
  if (
    rateHz >= RATE_HZ.least &&
    rateHz <= RATE_HZ.most &&
    lengthS >= LENGTH_S.least &&
    lengthS <= LENGTH_S.most
  )
    return undefined
  const short = (value: number) => Number(value.toPrecision(3))
  return problem(
    'implausible-clock',
    { file },
    {
      rate: `${short(rateHz)} Hz`,
      length: `${short(lengthS)} s`,
      expected: `${RATE_HZ.least} … ${RATE_HZ.most} Hz, ${LENGTH_S.least} … ${LENGTH_S.most} s`,
    },
  )
}

/** A channel whose samples, names and units aside, are those of a sync where a secondary was named, or the other way round. */
function likeAnother({ entry, data, quantum }: Channel, { file, sampleS }: Capture): Problem | undefined {
  if (entry.carries !== 'secondary' && entry.carries !== 'sync') return undefined
  const { role, sureness } = weighRoles(
    { name: '', unit: undefined },
    lookAtColumn(data, { sampleS, quantum }),
  )
  if (sureness < SURE || role !== (entry.carries === 'secondary' ? 'sync' : 'secondary')) return undefined
  return problem(
    'columns-doubtful',
    { file },
    { column: String(entry.column), carries: entry.carries, looks: role },
  )
}
