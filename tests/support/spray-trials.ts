import {
  judgePlaces,
  type CountingSpray,
  type JudgedSpray,
  type SprayLimits,
} from '../../src/test-log/spray/judge-places.ts'
import { limit, type Limits } from '../../src/limits/limits.ts'
import type { ReadSpray, SprayTime } from '../../src/test-log/spray/read-sprays.ts'
import { readTrace } from '../../src/test-log/spray/read-trace.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { simulateSpeedTrace } from '../../src/model/speed-trace.ts'
import {
  drawIdle,
  drawResponse,
  IDLE_KINDS,
  peakOf,
  simulateSpeed,
  type IdleKind,
  type SimulatedResponse,
} from './simulate-speed.ts'

/** Idles of this folder's generator, and those of the project's engine model, which shares nothing with it. */
export const TRIAL_KINDS = [...IDLE_KINDS, 'model idle'] as const
export type TrialKind = IdleKind | 'model idle'

/** One simulated trace with its sprays, and what really happened at each. */
export interface Trial {
  seconds: number
  kind: TrialKind
  seed: number
  /** Places sprayed, in order; those in `answers` respond by that many rpm. */
  places: readonly string[]
  answers: Readonly<Record<string, number>>
}

export interface TrialResult {
  sprays: readonly SprayTime[]
  /** Largest change each spray really made, rpm; 0 where its place does not respond. */
  trueRpm: readonly number[]
  /** Start of each response after its spray, s. */
  trueLateS: readonly number[]
  /** Step of the trace as read, s; 0 where it could not be. */
  stepS: number
  judged: readonly JudgedSpray[]
}

/** The limits of the spray test as templates/limits.yaml has them. */
export const benchLimits = (limits: Limits): { limits: SprayLimits; throttleRpm: number } => ({
  limits: {
    level: limit(limits, 'sprayLevel'),
    shuffledLevel: limit(limits, 'sprayShuffledLevel'),
    minStretches: limit(limits, 'sprayMinStretches'),
    leastRpm: limit(limits, 'sprayLeastRpm'),
    excludeRpm: limit(limits, 'sprayExcludeRpm'),
  },
  throttleRpm: limit(limits, 'throttleRpm'),
})

const countingOf = (seen: ReadSpray, as: { id: number; place: string; trace: string }): CountingSpray[] =>
  seen.spoilt ? [] : [{ ...as, scan: seen.scan, effect: seen.effect }]

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
  const responses = sprays.map((s, i) =>
    drawResponse(s.fromS, trial.answers[s.place] ?? 0, trial.seed * 31 + i),
  )
  const { timesS, rpm, trueRpm } = traceOf(trial, responses)
  const read = readTrace({ file: 'trace', timesS, rpm }, sprays, throttleRpm)
  const truth = { sprays, trueRpm, trueLateS: responses.map((r) => r.lateS) }
  if ('why' in read) return { ...truth, stepS: 0, judged: [] }
  const counting = sprays.flatMap((s, id) =>
    countingOf(read.sprays[id]!, { id, place: s.place, trace: 'trace' }),
  )
  return { ...truth, stepS: read.stepS, judged: judgePlaces(counting, new Map([['trace', read]]), limits) }
}

function traceOf(
  trial: Trial,
  responses: readonly SimulatedResponse[],
): { timesS: Float64Array; rpm: Float64Array; trueRpm: number[] } {
  const { kind, seconds, seed } = trial
  if (kind !== 'model idle') {
    const idle = drawIdle(kind, { seconds, seed: seed + 7919, responses })
    return { ...simulateSpeed(idle, seed + 104729), trueRpm: responses.map((r) => peakOf(idle, r)) }
  }
  const random = makeRandom(seed + 15485863)
  const between = (low: number, high: number) => low + (high - low) * random.uniform()
  const trace = simulateSpeedTrace({
    seed: seed + 32452843,
    durationS: seconds,
    sampleHz: [5, 10, 20][random.integer(3)]!,
    rpm: 750,
    swingRpm: between(0, 200),
    swingHz: between(0.2, 1.5),
    driftRpm: between(0, 20),
    noiseRpm: between(1, 6),
    stepRpm: 1,
    controlS: random.uniform() < 0.5 ? Infinity : between(2, 6),
    blips: [],
    sprays: responses.map((r) => ({
      fromS: r.fromS,
      toS: r.fromS + r.lastsS,
      responseRpm: r.rpm,
      delayS: r.lateS,
    })),
  })
  return {
    timesS: trace.rpm.map((_, i) => i * trace.sampleS),
    rpm: trace.rpm,
    trueRpm: trace.sprays.map((s) => s.peakRpm),
  }
}
