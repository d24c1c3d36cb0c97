import { makeRandom, type Random } from '../../src/maths/random.ts'
import {
  distributorCapture,
  pairsOf,
  plugTopCapture,
  usualOrder,
  wastedSparkCapture,
  withCylinders,
  type CaptureParameters,
} from '../../src/model/capture-parameters.ts'
import { IDLE_GAP, type CylinderState } from '../../src/model/cylinder-state.ts'
import { GOOD_SYNC, type Recorder } from '../../src/model/recorder.ts'

const between = (low: number, high: number, random: Random): number => low + (high - low) * random.uniform()
const pick = <T>(list: readonly T[], random: Random): T => list[random.integer(list.length)]!

/** A cylinder whose mixture is in order, with its own plug, scatter and turbulence. */
function levelCylinder(random: Random): Partial<CylinderState> {
  return {
    gap: { ...IDLE_GAP, gapMm: between(0.75, 1.4, random) },
    breakdownFactor: between(0.8, 1.15, random),
    mixtureScatterKv: between(0.02, 0.08, random),
    glowScatter: between(0.01, 0.035, random),
    turbulenceKv: between(0.005, 0.08, random),
    restrikes: random.uniform() < 0.2 ? random.uniform() : 0,
  }
}

/** A recorder from good to poor: rate, bits, range, noise, drift and hum. */
function anyRecorder(random: Random): Recorder {
  const range = pick([10, 15, 20, 25], random)
  return {
    sampleHz: pick([100_000, 200_000, 250_000, 500_000], random),
    faults: [],
    sync: GOOD_SYNC,
    secondary: {
      bits: pick([8, 10, 12], random),
      low: -range,
      high: range,
      noiseRms: between(0.005, 0.06, random),
      offset: between(-0.1, 0.1, random),
      driftRms: between(0, 0.05, random),
      driftS: between(0.2, 2, random),
      humPeak: random.uniform() < 0.3 ? between(0, 0.1, random) : 0,
      humHz: 50,
    },
  }
}

/** An engine of any of the usual kinds with every mixture in order, at any idle speed, on any recorder. */
export function levelEngine(seed: number): CaptureParameters {
  const random = makeRandom(seed * 104_729)
  const rpm = between(600, 1100, random)
  const cylinders = pick([4, 6, 8], random)
  const about = { cylinders, seed, rpm, durationS: (120 / rpm) * 14 }
  const pairs = pairsOf(usualOrder(cylinders)).slice(0, 2)
  const kind = random.integer(5)
  const base =
    kind < 2
      ? distributorCapture(about)
      : kind === 2
        ? plugTopCapture({ ...about, recorded: [1, 2, 3, 4] })
        : wastedSparkCapture({ ...about, pairs, on: kind === 3 ? 'leads' : 'coil' })
  const states = new Map([...base.cylinders.keys()].map((cylinder) => [cylinder, levelCylinder(random)]))
  const varied = withCylinders(base, states)
  return {
    ...varied,
    recorder: anyRecorder(random),
    engine: {
      ...varied.engine,
      speed: {
        ...varied.engine.speed,
        swingRpm: between(0, 80, random),
        swingPeriodS: between(0.7, 2, random),
      },
    },
  }
}
