import { readCapture } from '../../capture/read-capture.ts'
import type { CaptureEntry, Engine } from '../../job/schema.ts'
import type { JobFolder } from '../../job/job-folder.ts'
import { findEvents } from '../../ignition/find-events.ts'
import type { QualityRemark } from '../../ignition/event.ts'
import type { Limits } from '../../limits/limits.ts'
import type { CylinderMeasures, MeasuredEvent, SpeedMeasures } from '../../metrics/figures.ts'
import { drawCylinders } from '../../metrics/draw-lines.ts'
import { measureEvents } from '../../metrics/measure-events.ts'
import { measureSpeed } from '../../metrics/measure-speed.ts'
import type { Instrument } from '../../metrics/instrument.ts'
import { summarise } from '../../metrics/summarise.ts'
import { JobError, type Problem } from '../../problems/problem.ts'
import type { DrawnCylinder } from '../../records/drawn-traces.ts'
import { captureRecord } from '../../records/parts/capture-record.ts'
import type { CaptureRecord } from '../../records/result.ts'
import type { Texts } from '../../texts/messages.ts'

/** One capture after measuring: figures and thinned lines. Its samples are gone. */
export interface MeasuredCapture {
  entry: CaptureEntry
  record: CaptureRecord
  remarks: readonly QualityRemark[]
  events: readonly MeasuredEvent[]
  cylinders: readonly CylinderMeasures[]
  speed: SpeedMeasures
  drawn: readonly DrawnCylinder[]
}

interface Given { jobFolder: JobFolder; instrument: Instrument; limits: Limits; texts: Texts }

/**
 * Reads, finds and measures capture by capture, keeping no samples, so that memory is that of the largest capture.
 * Problems of all captures are gathered.
 */
export async function measureCaptures(given: Given): Promise<{ captures: MeasuredCapture[]; problems: Problem[] }> {
  const captures: MeasuredCapture[] = []
  const problems: Problem[] = []
  for (const entry of given.jobFolder.job.captures) {
    try {
      const { measured, warnings } = await measureCapture(entry, given)
      captures.push(measured)
      problems.push(...warnings)
    } catch (cause) {
      if (!(cause instanceof JobError)) throw cause
      problems.push(...cause.problems)
    }
  }
  return { captures, problems }
}

async function measureCapture(
  entry: CaptureEntry, { jobFolder, instrument, limits, texts }: Given,
): Promise<{ measured: MeasuredCapture; warnings: readonly Problem[] }> {
  const { engine } = jobFolder.job
  const { stage } = entry
  const capture = await readCapture(jobFolder.files.get(entry.file)!, entry)
  const found = findEvents(capture, engine)
  const events = measureEvents(found, { stage, engine, limits })
  const cylinders = summarise(events, { stage, capture: entry.file, engine, instrument, cylinders: cylindersSeen(entry, engine) })
  const speed = measureSpeed(events, { stage, capture: entry.file, engine, instrument })
  const record = captureRecord(texts, { capture, found, speed })
  return {
    measured: { entry, record, remarks: found.remarks, events, cylinders, speed, drawn: drawCylinders(found, events) },
    warnings: capture.warnings,
  }
}

/** Cylinders the capture's pickups see, so that one without any event gets a row too. */
function cylindersSeen(entry: CaptureEntry, engine: Engine): number[] {
  const all = Array.from({ length: engine.cylinders }, (_, i) => i + 1)
  return [...new Set(entry.channels.filter((c) => c.carries === 'secondary')
    .flatMap((c) => (c.cylinders === 'all' ? all : c.cylinders ?? [])))]
}
