import { findEvents } from '../ignition/find-events.ts'
import type { CaptureEvents } from '../ignition/event.ts'
import type { Limits } from '../limits/limits.ts'
import type { MeasuredEvent } from '../metrics/figures.ts'
import { measureEvents } from '../metrics/measure-events.ts'
import { measureSpeed } from '../metrics/measure-speed.ts'
import { measureQuality } from '../metrics/quality/measure-quality.ts'
import { summarise } from '../metrics/summarise.ts'
import { lookThrough } from '../verdicts/gates/index.ts'
import { judgeEngine } from '../verdicts/judge-engine.ts'
import { pickupKinds } from '../verdicts/pickup-kind.ts'
import type { KnownCapture } from './known-capture.ts'

/** Uncertainty stated with the known captures: their recorder is exact but for rate, steps and noise. */
const INSTRUMENT = { voltageUncertaintyPercent: 5, timeUncertaintyPpm: 100 }

/** What the measuring chain makes of a known capture: the same calls in the same order as for a job. */
export interface Reading {
  found: CaptureEvents
  events: readonly MeasuredEvent[]
  verdicts: ReadonlyMap<number, string>
}

export function measureKnown({ capture, engine }: KnownCapture, limits: Limits): Reading {
  const { entry } = capture
  const { stage } = entry
  const about = { stage, capture: capture.file, engine, instrument: INSTRUMENT }
  const found = findEvents(capture, engine)
  const events = measureEvents(found, { stage, engine, limits })
  const speed = measureSpeed(events, about)
  const cylinders = summarise(events, about)
  const facts = measureQuality(capture, found, events)
  const remarks = [...found.remarks, ...lookThrough({ entry, engine, facts, speed, cylinders }, limits)]
  const judged = judgeEngine(cylinders, {
    captures: [{ capture: capture.file, entry, speed, remarks, pickups: pickupKinds(entry, engine) }],
    compression: new Map(),
    limits,
  })
  return { found, events, verdicts: new Map(judged.map((j) => [j.measures.cylinder, j.judgement.verdict])) }
}
