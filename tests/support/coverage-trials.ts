import { judgeCapture } from '../../src/chain/judge-capture.ts'
import type { Engine } from '../../src/job/schema.ts'
import { loadLimits } from '../../src/limits/limits.ts'
import { makeRandom, type Random } from '../../src/maths/random.ts'
import { median } from '../../src/maths/median.ts'
import type { Summary } from '../../src/metrics/figures.ts'
import {
  distributorCapture,
  withCylinders,
  type CaptureParameters,
} from '../../src/model/capture-parameters.ts'
import { stepOf } from '../../src/model/recorder.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'
import { JobError } from '../../src/problems/problem.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { asCapture } from '../synthetic/as-capture.ts'

/** Figures whose stated 95 % intervals are held against the truth; `rpm` is the mean speed of the capture. */
export const COVERED = ['firingKv', 'burnMs', 'midKv', 'lateRiseKv', 'lateRisePct', 'rpm'] as const
type Covered = (typeof COVERED)[number]

/** Recorders of the trials; `often`: how many of twelve trials use each, fewer of those that take long to simulate. */
export const TRIAL_RECORDERS = [
  { name: '1 MS/s 12 bit', often: 1, sampleHz: 1_000_000, bits: 12, noise: [0.005, 0.03] },
  { name: '500 kS/s 12 bit', often: 2, sampleHz: 500_000, bits: 12, noise: [0.01, 0.05] },
  { name: '250 kS/s 10 bit', often: 4, sampleHz: 250_000, bits: 10, noise: [0.01, 0.05] },
  { name: '100 kS/s 8 bit', often: 5, sampleHz: 100_000, bits: 8, noise: [0.02, 0.08] },
] as const
const DRAWN = TRIAL_RECORDERS.flatMap((recorder) => Array.from({ length: recorder.often }, () => recorder))
const SPEEDS = [750, 1100, 2000] as const
/** One pickup in so many is AC-coupled, with a time constant between these, s (evenly in its logarithm). Our choice, no source. */
export const AC_ONE_IN = 7
const AC_S = [0.003, 0.05] as const
const MIXTURES_KV: readonly number[] = [0, 0.35]
const CYLINDERS = 4
/** Expanded uncertainties (k = 2) that the job would state; gain and clock of every trial are drawn from them. */
const INSTRUMENT = { voltageUncertaintyPercent: 3, timeUncertaintyPpm: 100 }
/** Length of the simulated run from which the truth of a mixture is taken, s: 2000 events. */
const TRUTH_S = 40

/** One stated interval, and the gain and clock its recorder really had. */
export interface Stated {
  seed: number
  recorder: string
  rpm: number
  mixtureKv: number
  /** The driver holds its current before it fires. */
  holds: boolean
  figure: Covered
  gain: number
  clock: number
  /** Time constant of the pickup's droop, s; Infinity where it holds. */
  droopS: number
  summary: Extract<Summary, { ok: true }>
}

const ABOUT = { instrument: INSTRUMENT, limits: loadLimits(), texts: loadTexts('en') }
const pick = <T>(list: readonly T[], random: Random): T => list[random.integer(list.length)]!
const between = ([low, high]: readonly [number, number], random: Random): number =>
  low + (high - low) * random.uniform()

/** A four-cylinder distributor engine whose cylinders are all alike. */
function engineRun(about: {
  seed: number
  durationS: number
  rpm: number
  mixtureKv: number
}): CaptureParameters {
  const base = distributorCapture({ cylinders: CYLINDERS, ...about })
  return withCylinders(
    base,
    new Map([...base.cylinders.keys()].map((c) => [c, { mixtureKv: about.mixtureKv }])),
  )
}

/** Every other driver holds its current before it fires; the others go on charging. */
const driver = ({ ignition }: CaptureParameters, holds: boolean): CaptureParameters['ignition'] =>
  holds || ignition.kind !== 'distributor'
    ? ignition
    : { ...ignition, coil: { ...ignition.coil, currentLimitA: Infinity } }

/**
 * One capture with luck of its own: condition, pickup, recorder (kind, noise, hum), gain and clock within the stated
 * uncertainty, and 10 to 13 events a cylinder, measured by the whole chain from samples to summaries.
 *
 * @param acOneIn  one pickup in so many is AC-coupled
 * @returns every interval stated, or nothing where the capture is refused
 */
export function runTrial(seed: number, acOneIn = AC_ONE_IN): Stated[] | 'refused' {
  const random = makeRandom(seed * 7919)
  const recorder = pick(DRAWN, random)
  const rpm = pick(SPEEDS, random)
  const mixtureKv = pick(MIXTURES_KV, random)
  const gain = 1 + (INSTRUMENT.voltageUncertaintyPercent / 200) * random.gaussian()
  const clock = 1 + (INSTRUMENT.timeUncertaintyPpm / 2e6) * random.gaussian()
  const [shortestS, longestS] = AC_S
  const droopS =
    random.integer(acOneIn) === 0 ? shortestS * (longestS / shortestS) ** random.uniform() : Infinity
  const base = engineRun({ seed, durationS: (120 / rpm) * (10.3 + 3 * random.uniform()), rpm, mixtureKv })
  const holds = makeRandom(seed * 7919 + 1).uniform() < 0.5
  const simulated = simulateCapture({
    ...base,
    ignition: driver(base, holds),
    pickups: base.pickups.map((p) => ({ ...p, gain, droopS })),
    recorder: {
      ...base.recorder,
      sampleHz: recorder.sampleHz,
      // The sync's own noise bears on no figure.
      sync: { ...base.recorder.sync, noiseRms: 0 },
      secondary: {
        ...base.recorder.secondary,
        bits: recorder.bits,
        noiseRms: between(recorder.noise, random),
        // A zero that lies anywhere within a step, so that the steps fall elsewhere on every recorder's levels.
        offset: (random.uniform() - 0.5) * stepOf({ ...base.recorder.secondary, bits: recorder.bits }),
        humPeak: 0.01 * random.uniform(),
      },
    },
  })
  const engine = {
    cylinders: CYLINDERS,
    strokes: 4,
    firing_order: [...base.engine.firingOrder],
    ignition: 'distributor',
    fuel: 'E0',
  } as Engine
  const capture = asCapture(simulated)
  const trial = { seed, recorder: recorder.name, rpm, mixtureKv, holds, gain, clock, droopS }
  try {
    // A clock that is off stretches all times alike.
    const { measured, judged } = judgeCapture(
      { ...capture, sampleS: capture.sampleS * clock },
      { ...ABOUT, engine },
    )
    const figures = [
      ...judged.flatMap(({ measures: { figures: own } }) =>
        COVERED.filter((f) => f !== 'rpm').map((figure) => ({ figure, summary: own[figure] })),
      ),
      { figure: 'rpm' as const, summary: measured.speed.mean },
    ]
    return figures.flatMap(({ figure, summary }) => (summary.ok ? [{ ...trial, figure, summary }] : []))
  } catch (cause) {
    if (!(cause instanceof JobError)) throw cause
    return 'refused'
  }
}

/**
 * Truth of every figure by mixture: the median of what such a cylinder does, from a long run of its own that no trial
 * shares events with. All cylinders of a trial are alike and their events independent draws, so that this is the value
 * each stated interval is about: the cylinder under that condition, not the handful of events the capture happens to
 * hold. The model's spark does not depend on the speed.
 */
export function truthTable(): (stated: Pick<Stated, 'figure' | 'mixtureKv' | 'holds' | 'rpm'>) => number {
  const kinds = MIXTURES_KV.flatMap((mixtureKv) => [true, false].map((holds) => ({ mixtureKv, holds })))
  const middles = new Map(
    kinds.map(({ mixtureKv, holds }) => {
      const run = engineRun({ seed: 987_654_321, durationS: TRUTH_S, rpm: 1500, mixtureKv })
      // Nothing is measured: the samples are not needed, only what happened.
      const { truth } = simulateCapture({
        ...run,
        ignition: driver(run, holds),
        recorder: { ...run.recorder, sampleHz: 1000 },
      })
      const events = truth.events.flatMap((e) => (e.levels ? [{ firingKv: e.firingKv, ...e.levels }] : []))
      return [
        `${mixtureKv} ${holds}`,
        new Map(COVERED.flatMap((f) => (f === 'rpm' ? [] : [[f, median(events.map((e) => e[f]))!]]))),
      ] as const
    }),
  )
  return ({ figure, mixtureKv, holds, rpm }) =>
    figure === 'rpm' ? rpm : middles.get(`${mixtureKv} ${holds}`)!.get(figure)!
}

const K95 = 1.959963984540054
/** Figures that an error of the gain moves, and those that one of the clock moves. */
const GAIN: readonly Covered[] = ['firingKv', 'midKv', 'lateRiseKv']
const CLOCK: readonly Covered[] = ['burnMs']

/** How one stated interval stands to the truth. */
export interface Held {
  held: boolean
  /**
   * The same with the instrument's own part left out: gain and clock of the trial are known, so that a wide instrument
   * cannot hide what the rest of the budget lacks.
   */
  heldWithout: boolean
  /** Half the interval's width, and the value less the truth as this recorder shows it, in the figure's unit. */
  half: number
  bias: number
}

/** @param stretch  factor on the interval's width: what another budget would have done */
export function held(
  { figure, gain, clock, summary: { value, low, high, budget } }: Stated,
  truth: number,
  stretch = 1,
): Held {
  const instrument = K95 * (budget.find((line) => line.source === 'instrument')?.u ?? 0)
  const without = (side: number): number =>
    stretch * Math.sqrt(Math.max(0, side * side - instrument * instrument))
  const shown = truth * (GAIN.includes(figure) ? gain : CLOCK.includes(figure) ? clock : 1)
  return {
    held: value - stretch * (value - low) <= truth && truth <= value + stretch * (high - value),
    heldWithout: value - without(value - low) <= shown && shown <= value + without(high - value),
    half: (high - low) / 2,
    bias: value - shown,
  }
}
