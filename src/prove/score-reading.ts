import type { KnownCapture, KnownEvent } from './known-capture.ts'
import type { Reading } from './measure-known.ts'

/** What is held against a limit, by name. Errors are 95th percentiles over complete firing events; counts are counts. */
export interface Score {
  /** Breakdowns in the record. */
  due: number
  missedPct: number
  falseEvents: number
  wrongCylinders: number
  wrongKinds: number
  burnErrorPct: number
  midErrorPct: number
  lateRiseErrorKv: number
  /** Cylinders whose stated 95 % interval of late rise does not hold the truth. */
  intervalsMissed: number
  wrongVerdicts: number
}

/** A found event is the true one when its breakdown lies this near. */
const SAME_S = 1e-4
/** Breakdowns this near to the record's start, or its end, need not be found: nothing of them shows. */
const START_S = 2e-5
const END_S = 1e-3

/** Holds a reading against the truth. */
export function scoreReading(
  { capture, events, accept, risesPct = new Map(), realRecorder = false }: KnownCapture,
  reading: Reading,
): Score {
  const endS = capture.startS + capture.rows * capture.sampleS
  const due = events.filter((e) => e.breakdownS > capture.startS + START_S && e.breakdownS < endS - END_S)
  const matchOf = (truth: KnownEvent): number =>
    reading.found.events.findIndex(
      (e) => e.channel === truth.channel && Math.abs(e.breakdownS - truth.breakdownS) < SAME_S,
    )
  const pairs = due.map((truth) => ({ truth, at: matchOf(truth) }))
  const told = pairs.filter((p) => p.at >= 0)
  const isTrue = (breakdownS: number): boolean =>
    events.some((e) => Math.abs(e.breakdownS - breakdownS) < SAME_S)
  const foundAt = (at: number) => reading.found.events[at]!
  return {
    due: due.length,
    missedPct: (100 * (pairs.length - told.length)) / due.length,
    falseEvents: reading.found.events.filter((e) => !isTrue(e.breakdownS)).length,
    wrongCylinders: told.filter(
      (p) => foundAt(p.at).cylinder !== undefined && foundAt(p.at).cylinder !== p.truth.cylinder,
    ).length,
    wrongKinds: told.filter(
      (p) => foundAt(p.at).cylinder !== undefined && foundAt(p.at).kind !== p.truth.kind,
    ).length,
    ...errorsOf(told, reading, realRecorder),
    intervalsMissed: [...risesPct].filter(([cylinder, truePct]) => {
      const stated = reading.risesPct.get(cylinder)
      return stated?.ok === true && !(stated.low <= truePct && truePct <= stated.high)
    }).length,
    wrongVerdicts: [...reading.verdicts].filter(
      ([cylinder, verdict]) => !accept.get(cylinder)!.includes(verdict),
    ).length,
  }
}

function errorsOf(
  told: readonly { truth: KnownEvent; at: number }[],
  { events }: Reading,
  realRecorder: boolean,
): Pick<Score, 'burnErrorPct' | 'midErrorPct' | 'lateRiseErrorKv'> {
  const scored = told.filter(
    ({ truth, at }) =>
      truth.complete &&
      truth.kind === 'firing' &&
      truth.burnMs !== undefined &&
      !events[at]!.flags.includes('partial'),
  )
  const worst = (
    name: 'burnMs' | 'midKv' | 'lateRiseKv',
    of: (error: number, truth: number) => number,
  ): number =>
    percentile95(
      scored.flatMap(({ truth, at }) => {
        const known = truth[name]
        if (known === undefined) return []
        const measured = events[at]!.figures[name]
        if (!measured.ok) return [Infinity]
        const error = Math.abs(measured.value - known)
        return [of(realRecorder ? Math.max(0, error - K95 * measured.u) : error, known)]
      }),
    )
  const inPct = (error: number, truth: number): number => (100 * error) / truth
  return {
    burnErrorPct: worst('burnMs', inPct),
    midErrorPct: worst('midKv', inPct),
    lateRiseErrorKv: worst('lateRiseKv', (error) => error),
  }
}

/** 95 %, two-sided, normal. */
const K95 = 1.96

/** The smallest value that at least 95 % of all do not exceed; 0 for none. */
function percentile95(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b)
  return sorted[Math.ceil(0.95 * sorted.length) - 1] ?? 0
}
