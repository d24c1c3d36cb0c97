import type { MeasuredCapture } from '../../src/chain/phases/measure-captures.ts'
import { judgeCapture } from '../../src/chain/judge-capture.ts'
import { judge } from '../../src/chain/phases/judge.ts'
import { loadLimits } from '../../src/limits/limits.ts'
import { makeRandom, type Random } from '../../src/maths/random.ts'
import { withCylinders, type CaptureParameters } from '../../src/model/capture-parameters.ts'
import type { CylinderState } from '../../src/model/cylinder-state.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'
import { JobError } from '../../src/problems/problem.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import type { RepairCheck } from '../../src/verdicts/repair.ts'
import { asCapture } from '../synthetic/as-capture.ts'
import { engineOf } from './judge-simulated.ts'
import { levelEngine } from './level-engines.ts'

const LIMITS = loadLimits()
const TEXTS = loadTexts('en')
const INSTRUMENT = { voltageUncertaintyPercent: 5, timeUncertaintyPpm: 100 }

/** One stage's capture measured as a job's is, without files. */
export function measureStage(
  parameters: CaptureParameters,
  stage: 'before' | 'after',
  file = `captures/${stage}.csv`,
): MeasuredCapture {
  const capture = asCapture(simulateCapture(parameters), { stage, file })
  const about = { engine: engineOf(parameters), instrument: INSTRUMENT, limits: LIMITS, texts: TEXTS }
  return judgeCapture(capture, about).measured
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
