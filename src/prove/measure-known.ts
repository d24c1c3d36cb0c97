import { judgeCapture } from '../chain/judge-capture.ts'
import type { CaptureEvents } from '../ignition/event.ts'
import type { Limits } from '../limits/limits.ts'
import type { MeasuredEvent, Summary } from '../metrics/figures.ts'
import { loadTexts } from '../texts/load-texts.ts'
import type { KnownCapture } from './known-capture.ts'

/** Uncertainty stated with the known captures: their recorder is exact but for rate, steps and noise. */
const INSTRUMENT = { voltageUncertaintyPercent: 5, timeUncertaintyPpm: 100 }

/** What the measuring chain makes of a known capture. */
export interface Reading {
  found: CaptureEvents
  events: readonly MeasuredEvent[]
  verdicts: ReadonlyMap<number, string>
  /** Late rise of each cylinder, %. */
  risesPct: ReadonlyMap<number, Summary<'%'>>
}

/** Measures and judges a known capture by the chain that reports jobs. */
export function measureKnown({ capture, engine }: KnownCapture, limits: Limits): Reading {
  const about = { engine, instrument: INSTRUMENT, limits, texts: loadTexts('en') }
  const { found, measured, judged } = judgeCapture(capture, about)
  return {
    found,
    events: measured.events,
    risesPct: new Map(judged.map((j) => [j.measures.cylinder, j.measures.figures.lateRisePct])),
    verdicts: new Map(judged.map((j) => [j.measures.cylinder, j.judgement.verdict])),
  }
}
