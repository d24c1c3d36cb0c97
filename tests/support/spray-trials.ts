import { judgePlaces, type JudgedSpray, type SprayLimits } from '../../src/test-log/spray/judge-places.ts'
import { limit, type Limits } from '../../src/limits/limits.ts'
import { readTrace, type SprayTime } from '../../src/test-log/spray/read-trace.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { drawIdle, drawResponse, simulateSpeed, type IdleKind, type SimulatedResponse } from './simulate-speed.ts'

/** One simulated trace with its sprays, and what really happened at each. */
export interface Trial {
  seconds: number
  kind: IdleKind
  seed: number
  /** Places sprayed, in order; those in `answers` respond by that many rpm. */
  places: readonly string[]
  answers: Readonly<Record<string, number>>
}

export interface TrialResult { sprays: readonly SprayTime[]; responses: readonly SimulatedResponse[]; judged: readonly JudgedSpray[] }

/** The limits of the spray test as templates/limits.yaml has them. */
export const benchLimits = (limits: Limits): { limits: SprayLimits; throttleRpm: number } => ({
  limits: {
    level: limit(limits, 'sprayLevel'), shuffledLevel: limit(limits, 'sprayShuffledLevel'),
    minStretches: limit(limits, 'sprayMinStretches'), leastRpm: limit(limits, 'sprayLeastRpm'), excludeRpm: limit(limits, 'sprayExcludeRpm'),
  },
  throttleRpm: limit(limits, 'throttleRpm'),
})

const SPRAY_S = 1.5
/** Quiet trace kept before the first and after the last spray, s. */
const LEAD_S = 8

/** Sprays evenly over the trace with some play, simulates it and reads it. */
export function runTrial(trial: Trial, limits: SprayLimits, throttleRpm: number): TrialResult {
  const random = makeRandom(trial.seed)
  const spare = trial.seconds - 2 * LEAD_S
  const share = spare / trial.places.length
  const sprays = trial.places.map((place, i) => {
    const play = trial.places.length === 1 ? share : Math.max(0, share - 10)
    const fromS = LEAD_S + i * share + play * random.uniform()
    return { place, fromS, toS: fromS + SPRAY_S }
  })
  const responses = sprays.flatMap((s, i) => {
    const rpm = trial.answers[s.place]
    return rpm === undefined ? [] : [drawResponse(s.fromS, rpm, trial.seed * 31 + i)]
  })
  const { timesS, rpm } = simulateSpeed(drawIdle(trial.kind, { seconds: trial.seconds, seed: trial.seed + 7919, responses }), trial.seed + 104729)
  const read = readTrace({ file: 'trace', timesS, rpm }, sprays, throttleRpm)
  if ('why' in read) return { sprays, responses, judged: [] }
  const counting = sprays.flatMap((s, id) => read.sprays[id]!.spoilt ? [] : [{ id, place: s.place, trace: 'trace', scan: read.sprays[id]!.scan }])
  return { sprays, responses, judged: judgePlaces(counting, new Map([['trace', read]]), limits) }
}
