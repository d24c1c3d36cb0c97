import type { CaptureEntry, Engine } from '../../job/schema.ts'
import type { JobFolder } from '../../job/job-folder.ts'
import type { QualityRemark } from '../../ignition/event.ts'
import { limit, type Limits } from '../../limits/limits.ts'
import type { ReadingLimits } from '../../limits/reading-limits.ts'
import { classifyEvent } from '../../metrics/classify-event.ts'
import type { CylinderMeasures, MeasuredEvent, SpeedMeasures } from '../../metrics/figures.ts'
import type { Instrument } from '../../metrics/instrument.ts'
import { summarise } from '../../metrics/summarise.ts'
import { JobError, type Problem } from '../../problems/problem.ts'
import type { DrawnCylinder } from '../../records/drawn-traces.ts'
import { remarkRecords } from '../../records/parts/capture-record.ts'
import type { CaptureRecord } from '../../records/result.ts'
import type { Texts } from '../../texts/messages.ts'
import type { PickupKind } from '../../verdicts/evidence.ts'
import { firingGapRise } from '../../verdicts/firing-gap-rise.ts'
import { lookThrough } from '../../verdicts/gates/index.ts'
import { pickupKinds } from '../../verdicts/pickup-kind.ts'
import type { MeasuredStore } from '../measured-store.ts'
import { takeCapture, type TakeAbout, type Taken } from '../take-capture.ts'

/** One capture after measuring: figures and thinned lines. Its samples are gone. */
export interface MeasuredCapture {
  entry: CaptureEntry
  record: CaptureRecord
  remarks: readonly QualityRemark[]
  events: readonly MeasuredEvent[]
  cylinders: readonly CylinderMeasures[]
  speed: SpeedMeasures
  drawn: readonly DrawnCylinder[]
  /** Where each cylinder's pickup sits. */
  pickups: ReadonlyMap<number, PickupKind>
}

interface Given {
  jobFolder: JobFolder
  instrument: Instrument
  limits: Limits
  reading: ReadingLimits
  texts: Texts
  store: MeasuredStore
  /** Digest of the program: what another program measured is not used. */
  program: string
}

/** Limits that bear on what is kept: an event too short to burn has no marks on its line, one off the speed is not drawn. */
const KEPT_LIMITS = ['stubBurnMs', 'crankingMostRpm', 'ownSpeedPct', 'idleMostRpm'] as const

/**
 * Reads, finds and measures capture by capture, keeping no samples, so that memory is that of the largest capture.
 * A capture measured before by the same program is taken from the store. Problems of all captures are gathered.
 */
export async function measureCaptures(
  given: Given,
): Promise<{ captures: MeasuredCapture[]; problems: Problem[] }> {
  const read: Read[] = []
  const problems: Problem[] = []
  for (const entry of given.jobFolder.job.captures) {
    try {
      const taken = await takeOrFind(entry, given)
      read.push({ entry, taken })
      problems.push(...taken.warnings)
    } catch (cause) {
      if (!(cause instanceof JobError)) throw cause
      problems.push(...cause.problems)
    }
  }
  const { engine } = given.jobFolder.job
  const lone = loneCaptures(read, given)
  const captures = read.map(({ entry, taken }) =>
    judgeable(taken, entry, { ...given, engine, elsewhere: elsewhereOf(entry, lone) }),
  )
  return { captures, problems }
}

interface Read {
  entry: CaptureEntry
  taken: Taken
}

/** A capture that sees one cylinder. */
interface Lone {
  entry: CaptureEntry
  cylinder: number
  events: MeasuredEvent[]
}

const loneCaptures = (read: readonly Read[], { jobFolder, limits }: Given): Lone[] => {
  const { engine } = jobFolder.job
  return read.flatMap(({ entry, taken }) => {
    const [cylinder, ...others] = cylindersSeen(entry, engine)
    return cylinder === undefined || others.length > 0
      ? []
      : [{ entry, cylinder, events: classed(taken.events, { pickups: pickupKinds(entry, engine), limits }) }]
  })
}

/** Of a capture of one cylinder: the events of each other cylinder that has captures of its own in that stage. */
function elsewhereOf(entry: CaptureEntry, lone: readonly Lone[]): MeasuredEvent[][] {
  const own = lone.find((l) => l.entry === entry)
  return own === undefined
    ? []
    : lone.filter((l) => l.entry.stage === entry.stage && l.cylinder !== own.cylinder).map((l) => l.events)
}

async function takeOrFind(entry: CaptureEntry, given: Given): Promise<Taken> {
  const { jobFolder, instrument, limits, reading, store, program, texts } = given
  // What was read once under wider limits is not to stand for a file that is now refused.
  const key = {
    program,
    reading,
    entry,
    engine: jobFolder.job.engine,
    instrument,
    limits: KEPT_LIMITS.map((name) => limit(limits, name)),
  }
  const path = jobFolder.files.get(entry.file)!
  const kept = await store.find(key, path)
  if (kept !== undefined) return kept as Taken
  const about = { engine: jobFolder.job.engine, instrument, limits, reading, texts }
  const taken = await takeCapture(path, entry, about)
  store.keep(key, taken.record, taken)
  return taken
}

/** Adds what depends on limits and texts: each event's class, the cylinders' summaries, the gates' remarks, all remarks' sentences. */
export function judgeable(
  { record, ...taken }: Taken,
  entry: CaptureEntry,
  {
    engine,
    instrument,
    limits,
    texts,
    elsewhere = [],
  }: Omit<TakeAbout, 'reading'> & { elsewhere?: readonly (readonly MeasuredEvent[])[] },
): MeasuredCapture {
  const pickups = pickupKinds(entry, engine)
  const events = classed(taken.events, { pickups, limits })
  const about = {
    stage: entry.stage,
    capture: entry.file,
    engine,
    instrument,
    cylinders: cylindersSeen(entry, engine),
    elsewhere,
    swingPeriodS: taken.speed.swingPeriod.ok ? taken.speed.swingPeriod.value : undefined,
  }
  const cylinders = summarise(events, about)
  const remarks = [
    ...taken.remarks,
    ...lookThrough({ entry, engine, pickups, facts: taken.quality, speed: taken.speed, cylinders }, limits),
  ]
  return {
    entry,
    events,
    remarks,
    speed: taken.speed,
    drawn: taken.drawn,
    pickups,
    record: { ...record, remarks: remarkRecords(texts, remarks) },
    cylinders,
  }
}

/** Every event with the late rise it is judged by, its firing gap's alone, and its class by that. */
function classed(
  events: Taken['events'],
  { pickups, limits }: { pickups: ReadonlyMap<number, PickupKind>; limits: Limits },
): MeasuredEvent[] {
  const by = { lateRisePct: limit(limits, 'lateRisePct'), stubBurnMs: limit(limits, 'stubBurnMs') }
  return events.map((event) => {
    const { cylinder, figures } = event
    const ownGap =
      cylinder !== undefined && pickups.get(cylinder) === 'whole coil'
        ? { ...event, figures: { ...figures, lateRisePct: firingGapRise(figures.lateRisePct, limits) } }
        : event
    return { ...ownGap, class: classifyEvent(ownGap, by) }
  })
}

/** Cylinders the capture's pickups see, so that one without any event gets a row too. */
function cylindersSeen(entry: CaptureEntry, engine: Engine): number[] {
  const all = Array.from({ length: engine.cylinders }, (_, i) => i + 1)
  return [
    ...new Set(
      entry.channels
        .filter((c) => c.carries === 'secondary')
        .flatMap((c) => (c.cylinders === 'all' ? all : (c.cylinders ?? []))),
    ),
  ]
}
