import type { Capture } from '../../src/capture/capture.ts'
import type { CaptureEvents, IgnitionEvent } from '../../src/ignition/event.ts'
import type { TruthEvent } from './fixture-captures.ts'

/** What was found beside what there is. */
export interface Score {
  /** Breakdowns in the record. */
  due: number
  missed: TruthEvent[]
  /** Found where there is none. */
  extra: IgnitionEvent[]
  wrongCylinder: number
  untold: number
  wrongKind: number
  /** Sorted magnitudes of the error, complete events only. */
  breakdownUs: number[]
  burnPct: number[]
  dwellUs: number[]
}

/** An event is the true one when its breakdown lies this near. */
const SAME_S = 1e-4
/** Breakdowns so near to the record's edges need not be found. */
const EDGE_S = 2e-5

export function scoreEvents(found: CaptureEvents, capture: Capture, truth: readonly TruthEvent[]): Score {
  const endS = capture.startS + capture.rows * capture.sampleS
  const due = truth.filter((t) => t.t_breakdown_s > capture.startS + EDGE_S && t.t_breakdown_s < endS - 1e-3)
  const channelOf = (t: TruthEvent): number => capture.channels.findIndex((c) => c.entry.column === t.channel)
  const matches = due.map((t) =>
    found.events.find((e) => e.channel === channelOf(t) && Math.abs(e.breakdownS - t.t_breakdown_s) < SAME_S),
  )
  const score: Score = {
    due: due.length,
    missed: due.filter((_, i) => !matches[i]),
    wrongCylinder: 0,
    untold: 0,
    wrongKind: 0,
    extra: found.events.filter(
      (e) => !matches.includes(e) && !truth.some((t) => Math.abs(e.breakdownS - t.t_breakdown_s) < SAME_S),
    ),
    breakdownUs: [],
    burnPct: [],
    dwellUs: [],
  }
  due.forEach((t, i) => {
    if (matches[i]) compare(score, t, matches[i])
  })
  for (const list of [score.breakdownUs, score.burnPct, score.dwellUs]) list.sort((a, b) => a - b)
  return score
}

function compare(score: Score, truth: TruthEvent, event: IgnitionEvent): void {
  if (event.cylinder === undefined) score.untold++
  else if (event.cylinder !== truth.cylinder) score.wrongCylinder++
  if (event.cylinder !== undefined && (event.kind === 'wasted') !== (truth.kind === 'wasted'))
    score.wrongKind++
  if (!truth.complete || event.flags.includes('partial')) return
  score.breakdownUs.push(Math.abs(event.breakdownS - truth.t_breakdown_s) * 1e6)
  score.burnPct.push(
    event.endS === undefined
      ? Infinity
      : Math.abs((event.endS - event.breakdownS) / (truth.burn_ms * 1e-3) - 1) * 100,
  )
  const { dwellStart, breakdown, sampleS } = event.wave
  if (dwellStart !== undefined) {
    score.dwellUs.push(
      Math.abs((breakdown - dwellStart) * sampleS - (truth.t_breakdown_s - truth.t_dwell_s)) * 1e6,
    )
  }
}

/** 95th percentile of sorted values, the next one above it; Infinity for none. */
export const p95 = (sorted: readonly number[]): number =>
  sorted[Math.ceil(0.95 * sorted.length) - 1] ?? Infinity
