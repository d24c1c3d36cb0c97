import type { QualityRemark } from '../ignition/event.ts'
import type { CaptureEntry, Engine } from '../job/schema.ts'
import type { Limits } from '../limits/limits.ts'
import type { ReadingLimits } from '../limits/reading-limits.ts'
import { drawCylinders } from '../metrics/draw-lines.ts'
import type { MeasuredEvent, SpeedMeasures } from '../metrics/figures.ts'
import type { Instrument } from '../metrics/instrument.ts'
import { measureEvents } from '../metrics/measure-events.ts'
import { markOwnSpeed } from '../metrics/own-speed.ts'
import { measureSpeed } from '../metrics/measure-speed.ts'
import type { QualityFacts } from '../metrics/quality/facts.ts'
import { measureQuality } from '../metrics/quality/measure-quality.ts'
import type { Problem } from '../problems/problem.ts'
import type { DrawnCylinder } from '../records/drawn-traces.ts'
import { captureRecord } from '../records/parts/capture-record.ts'
import type { CaptureRecord } from '../records/result.ts'
import type { Texts } from '../texts/messages.ts'
import { readAndFind, type Found } from './read-and-find.ts'

/** What measuring a capture needs to know besides the capture. */
export interface TakeAbout {
  engine: Engine
  instrument: Instrument
  limits: Limits
  reading: ReadingLimits
  texts: Texts
}

/**
 * What measuring a capture takes its time for, apart from limits and texts, so that it can be kept.
 * Plain data, so that it can be kept in a file.
 * Of the limits only those of drawing and of an event's own speed have a part in it; the classes of its events are taken anew with the limits in force.
 */
export interface Taken {
  /** Without its remarks, whose sentences are in a language. */
  record: CaptureRecord
  remarks: readonly QualityRemark[]
  events: readonly MeasuredEvent[]
  speed: SpeedMeasures
  quality: QualityFacts
  drawn: readonly DrawnCylinder[]
  warnings: readonly Problem[]
}

/**
 * Reads a capture, finds its events and measures them. Its samples are gone afterwards.
 * @param path  absolute
 * @throws JobError
 */
export const takeCapture = async (path: string, entry: CaptureEntry, about: TakeAbout): Promise<Taken> =>
  takeFound(await readAndFind(path, entry, about), about)

/** Measures a capture whose events were found. */
export function takeFound(
  { capture, found }: Found,
  { engine, instrument, limits, texts }: Omit<TakeAbout, 'reading'>,
): Taken {
  const { stage, condition } = capture.entry
  const measured = measureEvents(found, { stage, engine, limits })
  const events = markOwnSpeed(measured, { condition, engine, limits })
  const speed = measureSpeed(events, { stage, capture: capture.entry.file, engine, instrument })
  const record = { ...captureRecord(texts, { capture, found, speed }), remarks: [] }
  return {
    record,
    remarks: found.remarks,
    events,
    speed,
    quality: measureQuality(capture, found, events),
    drawn: drawCylinders(found, events),
    warnings: capture.warnings,
  }
}
