import { findEvents } from '../../src/ignition/find-events.ts'
import type { Engine } from '../../src/job/schema.ts'
import { loadLimits } from '../../src/limits/limits.ts'
import { makeRandom, type Random } from '../../src/maths/random.ts'
import { median } from '../../src/maths/median.ts'
import { measureEvents } from '../../src/metrics/measure-events.ts'
import { measureSpeed } from '../../src/metrics/measure-speed.ts'
import { summarise } from '../../src/metrics/summarise.ts'
import { distributorCapture, withCylinders, type CaptureParameters } from '../../src/model/capture-parameters.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'
import { JobError } from '../../src/problems/problem.ts'
import { asCapture } from '../synthetic/as-capture.ts'

/**
 * Coverage of the stated 95 % intervals by the whole measuring chain, from samples to cylinder medians.
 *
 * Every simulated capture draws its own engine speed, mixture, recorder (rate, bits, noise, hum) and its own error of
 * gain and clock from the stated uncertainty. The truth of a cylinder's figure is the median over all events of its
 * condition, pooled over all captures; that of the speed is the set speed. Prints, per figure and recorder, how often
 * the interval holds the truth, the median half width and the median bias.
 *
 *   node tests/bench/run.mjs tests/bench/coverage.ts     BURNLINE_CAPTURES=2000 for the full run
 */
const CAPTURES = Number(process.env['BURNLINE_CAPTURES'] ?? 200)
const FIRST_SEED = Number(process.env['BURNLINE_SEED'] ?? 1)
const CYLINDERS = 4
const RECORDERS = [
  { name: '1 MS/s 12 bit', sampleHz: 1_000_000, bits: 12, noise: [0.005, 0.03] },
  { name: '500 kS/s 12 bit', sampleHz: 500_000, bits: 12, noise: [0.01, 0.05] },
  { name: '250 kS/s 10 bit', sampleHz: 250_000, bits: 10, noise: [0.01, 0.05] },
  { name: '100 kS/s 8 bit', sampleHz: 100_000, bits: 8, noise: [0.02, 0.08] },
] as const
/** Condition of the pooled truth: speed and mixture. */
const SPEEDS = [700, 850, 1500] as const
const MIXTURES_KV = [0, 0.35] as const
const FIGURES = { firingKv: 'firingKv', burnMs: 'burnMs', midKv: 'midKv', lateRiseKv: 'lateRiseKv', lateRisePct: 'lateRisePct' } as const
type Figure = keyof typeof FIGURES

interface Stated { condition: string; recorder: string; figure: Figure | 'rpm'; low: number; value: number; high: number; truth?: number }

const limits = loadLimits()
const truths = new Map<string, number[]>()
const stated: Stated[] = []
let refused = 0
const pick = <T>(list: readonly T[], random: Random): T => list[random.integer(list.length)]!
const between = ([low, high]: readonly [number, number], random: Random): number => low + (high - low) * random.uniform()

for (let run = 0; run < CAPTURES; run++) one(FIRST_SEED + run)
report()

function one(seed: number): void {
  const random = makeRandom(seed * 7919)
  const recorder = pick(RECORDERS, random)
  const rpm = pick(SPEEDS, random)
  const mixtureKv = pick(MIXTURES_KV, random)
  const condition = `${rpm} ${mixtureKv}`
  const instrument = { voltageUncertaintyPercent: 3, timeUncertaintyPpm: 100 }
  const gain = 1 + (instrument.voltageUncertaintyPercent / 200) * random.gaussian()
  const clock = 1 + (instrument.timeUncertaintyPpm / 2e6) * random.gaussian()
  const base = distributorCapture({ cylinders: CYLINDERS, seed, durationS: (120 / rpm) * (11 + random.integer(8)), rpm })
  const engine = Object.fromEntries([...base.cylinders.keys()].map((c) => [c, { mixtureKv }]))
  const parameters: CaptureParameters = {
    ...withCylinders(base, new Map(Object.entries(engine).map(([c, change]) => [Number(c), change]))),
    pickups: base.pickups.map((p) => ({ ...p, gain })),
    recorder: {
      ...base.recorder, sampleHz: recorder.sampleHz,
      secondary: { ...base.recorder.secondary, bits: recorder.bits, noiseRms: between(recorder.noise, random), humPeak: 0.01 * random.uniform() },
    },
  }
  const simulated = simulateCapture(parameters)
  for (const event of simulated.truth.events) {
    if (!event.complete || event.levels === undefined) continue
    const values: Record<Figure, number> = {
      firingKv: event.firingKv, burnMs: event.levels.burnMs, midKv: event.levels.midKv,
      lateRiseKv: event.levels.lateRiseKv, lateRisePct: event.levels.lateRisePct,
    }
    for (const [name, value] of Object.entries(values)) keep(truths, `${condition} ${name}`, value)
  }
  const capture = asCapture(simulated)
  const engineEntry = { cylinders: CYLINDERS, strokes: 4, firing_order: [...base.engine.firingOrder], ignition: 'distributor', fuel: 'E0' } as Engine
  try {
    // A clock that is off stretches all times alike.
    const found = findEvents({ ...capture, sampleS: capture.sampleS * clock }, engineEntry)
    const about = { stage: 'before', capture: capture.file, engine: engineEntry, instrument } as const
    const events = measureEvents(found, { stage: 'before', engine: engineEntry, limits })
    for (const cylinder of summarise(events, about)) {
      for (const figure of Object.keys(FIGURES) as Figure[]) {
        const summary = cylinder.figures[figure]
        if (summary.ok) stated.push({ condition, recorder: recorder.name, figure, ...summary })
      }
    }
    const { mean } = measureSpeed(events, about)
    if (mean.ok) stated.push({ condition, recorder: recorder.name, figure: 'rpm', ...mean, truth: rpm })
  } catch (cause) {
    if (!(cause instanceof JobError)) throw cause
    refused++
  }
}

function keep(into: Map<string, number[]>, key: string, value: number): void {
  const list = into.get(key)
  if (list) list.push(value)
  else into.set(key, [value])
}

function report(): void {
  const truthOf = new Map([...truths].map(([key, values]) => [key, median(values)!]))
  const rows = stated.map((s) => {
    const truth = s.truth ?? truthOf.get(`${s.condition} ${s.figure}`)!
    return { ...s, held: s.low <= truth && truth <= s.high, half: (s.high - s.low) / 2 / Math.abs(truth), bias: (s.value - truth) / Math.abs(truth) }
  })
  console.log(`captures ${CAPTURES}, refused ${refused}, intervals ${rows.length}`)
  console.log('figure       recorder           n     held %   half width %   bias %')
  for (const figure of [...Object.keys(FIGURES), 'rpm']) {
    for (const recorder of [...RECORDERS.map((r) => r.name), 'all']) {
      const own = rows.filter((r) => r.figure === figure && (recorder === 'all' || r.recorder === recorder))
      if (own.length === 0) continue
      const held = (100 * own.filter((r) => r.held).length) / own.length
      console.log([
        figure.padEnd(12), recorder.padEnd(16), String(own.length).padStart(6), held.toFixed(1).padStart(9),
        (100 * median(own.map((r) => r.half))!).toFixed(2).padStart(12), (100 * median(own.map((r) => r.bias))!).toFixed(2).padStart(10),
      ].join('  '))
    }
  }
}
