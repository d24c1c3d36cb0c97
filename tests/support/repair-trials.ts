import type { MeasuredCapture } from '../../src/chain/phases/measure-captures.ts'
import { judge } from '../../src/chain/phases/judge.ts'
import { findEvents } from '../../src/ignition/find-events.ts'
import { limit, loadLimits } from '../../src/limits/limits.ts'
import { makeRandom, type Random } from '../../src/maths/random.ts'
import { classifyEvent } from '../../src/metrics/classify-event.ts'
import { measureEvents } from '../../src/metrics/measure-events.ts'
import { measureSpeed } from '../../src/metrics/measure-speed.ts'
import { measureQuality } from '../../src/metrics/quality/measure-quality.ts'
import { summarise } from '../../src/metrics/summarise.ts'
import { withCylinders, type CaptureParameters } from '../../src/model/capture-parameters.ts'
import type { CylinderState } from '../../src/model/cylinder-state.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'
import { JobError } from '../../src/problems/problem.ts'
import { lookThrough } from '../../src/verdicts/gates/index.ts'
import { pickupKinds } from '../../src/verdicts/pickup-kind.ts'
import type { RepairCheck } from '../../src/verdicts/repair.ts'
import { asCapture } from '../synthetic/as-capture.ts'
import { engineOf } from './judge-simulated.ts'
import { levelEngine } from './level-engines.ts'

const LIMITS = loadLimits()
const INSTRUMENT = { voltageUncertaintyPercent: 5, timeUncertaintyPpm: 100 }

/** One stage's capture measured as a job's is, without files. */
export function measureStage(
  parameters: CaptureParameters,
  stage: 'before' | 'after',
  file = `captures/${stage}.csv`,
): MeasuredCapture {
  const capture = asCapture(simulateCapture(parameters), { stage, file })
  const engine = engineOf(parameters)
  const { entry } = capture
  const found = findEvents(capture, engine)
  const classLimits = { lateRisePct: limit(LIMITS, 'lateRisePct'), stubBurnMs: limit(LIMITS, 'stubBurnMs') }
  const events = measureEvents(found, { stage, engine, limits: LIMITS }).map((e) => ({
    ...e,
    class: classifyEvent(e, classLimits),
  }))
  const about = { stage, capture: entry.file, engine, instrument: INSTRUMENT }
  const speed = measureSpeed(events, about)
  const cylinders = summarise(events, {
    ...about,
    cylinders: [...new Set(events.flatMap((e) => e.cylinder ?? []))],
  })
  const remarks = [
    ...found.remarks,
    ...lookThrough(
      { entry, engine, facts: measureQuality(capture, found, events), speed, cylinders },
      LIMITS,
    ),
  ]
  const channels = capture.channels.map((c) => ({ carries: c.entry.carries, quantum: c.quantum }))
  const record = { sample_rate_hz: 1 / capture.sampleS, channels } as unknown as MeasuredCapture['record']
  return { entry, record, remarks, events, cylinders, speed, drawn: [], pickups: pickupKinds(entry, engine) }
}

/** The repair check on two simulated captures, or the codes one was refused with. */
export function checkSimulated(
  before: CaptureParameters,
  after: CaptureParameters,
): RepairCheck | { refused: string } {
  try {
    return judge([measureStage(before, 'before'), measureStage(after, 'after')], {
      compression: new Map(),
      ignition: 'distributor',
      limits: LIMITS,
    }).repair
  } catch (cause) {
    if (!(cause instanceof JobError)) throw cause
    return { refused: cause.problems.map((p) => p.code).join(' ') }
  }
}

/** What one cylinder may have, from nothing to gross; near every limit now and then. */
function anyFault(random: Random): Partial<CylinderState> {
  const size = random.uniform()
  const kinds: readonly Partial<CylinderState>[] = [
    { mixtureKv: 0.9 * size },
    { mixtureKv: 0.4 * size },
    { mixtureKv: -0.7 * size },
    { seriesKohm: 14 + 46 * size },
    { misfireShare: 0.4 * size },
    { openShare: size },
    { noSparkShare: 0.6 * size },
    {},
  ]
  return kinds[random.integer(kinds.length)]!
}

/** At most 200 kS/s: hundreds of pairs in minutes, and no easier for it. */
const slower = (p: CaptureParameters): CaptureParameters => ({
  ...p,
  recorder: { ...p.recorder, sampleHz: Math.min(200_000, p.recorder.sampleHz) },
})

/** How the second recording of one engine differs from the first. */
export interface Retake {
  recorder: boolean
  speed: boolean
}

/** Two recordings of one engine on which nothing was done, with one or two cylinders out of order, by luck near a limit. */
export function unchangedPair(seed: number, retake: Retake): [CaptureParameters, CaptureParameters] {
  const random = makeRandom(seed * 7_368_787)
  const base = slower(levelEngine(seed + 500_000))
  const numbers = [...base.cylinders.keys()]
  const faults = new Map([0, 1].map(() => [numbers[random.integer(numbers.length)]!, anyFault(random)]))
  const before = withCylinders(base, faults)
  const { speed } = before.engine
  const rpm = retake.speed ? speed.rpm * (0.9 + 0.2 * random.uniform()) : speed.rpm
  const after: CaptureParameters = {
    ...before,
    seed: before.seed + 7_919,
    recorder: retake.recorder ? slower(levelEngine(seed + 900_000)).recorder : before.recorder,
    engine: { ...before.engine, speed: { ...speed, rpm } },
  }
  return [before, after]
}
