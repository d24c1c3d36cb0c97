import type { Capture } from '../../src/capture/capture.ts'
import {
  distributorCapture,
  withCylinders,
  type CaptureParameters,
} from '../../src/model/capture-parameters.ts'
import type { SpeedModel } from '../../src/model/engine.ts'
import type { CylinderState } from '../../src/model/cylinder-state.ts'
import type { Pickup } from '../../src/model/pickup.ts'
import type { Digitiser } from '../../src/model/recorder.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { judgeSimulated } from './judge-simulated.ts'

/** How an engine runs while it is recorded, or how it is recorded. */
export interface RunKind {
  name: string
  durationS?: number
  speed?: Partial<SpeedModel>
  sampleHz?: number
  digitiser?: Partial<Digitiser>
  pickup?: Partial<Pickup>
  /** What all cylinders are like beside their mixture. */
  cylinders?: Partial<CylinderState>
  /** Beside that, what each is like: cylinders of one engine that differ. */
  each?: ReadonlyMap<number, Partial<CylinderState>>
  change?: (capture: Capture) => Capture
}

/** All invented. What a practised eye would call anyway, and what each gate is there for. */
export const RUN_KINDS: readonly RunKind[] = [
  { name: 'steady' },
  { name: 'hunts 150 rpm, 1.2 s', speed: { swingRpm: 150, swingPeriodS: 1.2 } },
  { name: 'hunts 330 rpm, 0.5 s', speed: { swingRpm: 330, swingPeriodS: 0.5 } },
  { name: 'hunts 520 rpm, 1.5 s', speed: { swingRpm: 520, swingPeriodS: 1.5 } },
  { name: 'hunts 600 rpm, 4 s', speed: { swingRpm: 600, swingPeriodS: 4 } },
  { name: 'hunts, mixture follows', speed: { swingRpm: 330, swingPeriodS: 1.5, mixtureKvPerRpm: 0.0008 } },
  {
    name: 'start, then idle',
    durationS: 5,
    speed: { start: { crankedS: 1.2, crankRpm: 190, flareRpm: 450 } },
  },
  { name: 'blip in the middle', durationS: 5, speed: { changes: [{ fromS: 1.2, toS: 1.5, rpm: 2600 }] } },
  { name: 'half a second', durationS: 0.6 },
  { name: 'cold engine', change: (c) => ({ ...c, entry: { ...c.entry, engine: 'cold' } }) },
  { name: 'called 2500 rpm', change: (c) => ({ ...c, entry: { ...c.entry, condition: '2500 rpm' } }) },
  {
    name: 'hunts, leak, AC 20 ms',
    speed: { swingRpm: 330, swingPeriodS: 1.5, mixtureKvPerRpm: 0.0008 },
    pickup: { droopS: 0.02 },
  },
  { name: 'AC 5 ms', pickup: { droopS: 0.005 } },
  { name: 'AC 20 ms', pickup: { droopS: 0.02 } },
  { name: 'AC 20 ms, 8 bits', pickup: { droopS: 0.02 }, digitiser: { bits: 8, noiseRms: 0.04 } },
  { name: 'AC 20 ms, 8 quiet bits', pickup: { droopS: 0.02 }, digitiser: { bits: 8, noiseRms: 0.008 } },
  { name: 'frames of 0.26 s', durationS: 5, change: (c) => framed(c, { lengthS: 0.26, pauseS: 0.14 }) },
  {
    name: 'frames, not a cycle each',
    durationS: 5,
    change: (c) => framed(c, { lengthS: 0.06, pauseS: 0.11 }),
  },
  { name: 'goes out early', cylinders: { holdA: 0.012 } },
  { name: 'neighbours alike, 0.5', durationS: 5, cylinders: { mixtureWander: { kv: 0.1, kept: 0.5 } } },
  { name: 'neighbours alike, 0.8', durationS: 5, cylinders: { mixtureWander: { kv: 0.1, kept: 0.8 } } },
  { name: 'hash and restrikes', cylinders: { turbulenceKv: 0.08, restrikes: 0.5 } },
  {
    name: 'cylinders that differ',
    each: new Map([
      [1, { breakdownFactor: 1.3 }],
      [2, { seriesKohm: 9, glowScatter: 0.04 }],
      [4, { holdA: 4e-3, breakdownScatter: 0.12 }],
    ]),
  },
  {
    name: 'starter alone',
    durationS: 6,
    speed: { rpm: 210 },
    change: (c) => ({ ...c, entry: { ...c.entry, condition: 'cranking' } }),
  },
  { name: '12 kS/s', sampleHz: 12_000 },
  { name: '6 bits', digitiser: { bits: 6 } },
  { name: 'level that jumps', digitiser: { driftRms: 0.6, driftS: 0.03 } },
  { name: 'lines clipped', digitiser: { low: -1.5, high: 1.5 } },
]

/** The record as a triggered recorder would have kept it: stretches with pauses between them, times as they were. */
function framed(whole: Capture, { lengthS, pauseS }: { lengthS: number; pauseS: number }): Capture {
  const rows = Math.round(lengthS / whole.sampleS)
  const apart = Math.round((lengthS + pauseS) / whole.sampleS)
  const count = Math.floor((whole.rows - rows) / apart) + 1
  const frames = Array.from({ length: count }, (_, k) => ({
    row: k * rows,
    clockS: whole.startS + k * apart * whole.sampleS,
  }))
  return {
    ...whole,
    rows: count * rows,
    frames,
    jumps: frames.slice(1).map(({ row }) => ({ row, extraS: (apart - rows) * whole.sampleS })),
    channels: whole.channels.map((channel) => {
      const data = new Float32Array(count * rows)
      frames.forEach(({ row }, k) => data.set(channel.data.subarray(k * apart, k * apart + rows), row))
      return { ...channel, data }
    }),
  }
}

/** One cylinder of a run: what is so, what was said, and what would have been said without gates. */
export interface RunCylinder {
  kind: string
  truth: 'lean' | 'level' | 'falling'
  /** By the true late rise, fixed before the run: twice the limit or more, or half of it or less. */
  clear: boolean
  verdict: string
  /** Width of the interval of late rise, points. */
  width: number | undefined
  /** The remark that withheld the verdict, and the verdict without any. */
  gate?: string
  ungated?: string
}

const CLEAR_PCT = 40
const LEVEL_PCT = 10

/** A four-cylinder engine, each cylinder lean, level or rich by the seed, run and recorded in one way. */
export function judgeRun(kind: RunKind, seed: number): RunCylinder[] {
  const random = makeRandom(seed)
  const outcome = judgeSimulated(parametersOf(kind, seed, random), kind.change)
  if (outcome.refused) return []
  const ungated = outcome.ungated()
  return outcome.judged.map(({ measures, judgement: { verdict } }) => {
    const rise = outcome.trueLateRisePct.get(measures.cylinder) ?? 0
    const truth = rise > 20 ? 'lean' : rise < -20 ? 'falling' : 'level'
    const late = measures.figures.lateRisePct
    const gate = outcome.remarks.find(
      (r) =>
        r.forbids.some((f) => f === 'all' || f === 'mixture') &&
        (!r.cylinders || r.cylinders.includes(measures.cylinder)),
    )
    return {
      kind: kind.name,
      truth,
      clear: Math.abs(rise) >= CLEAR_PCT || Math.abs(rise) <= LEVEL_PCT,
      verdict,
      width: late.ok ? late.high - late.low : undefined,
      ...(gate && verdict === 'not judged' && { gate: gate.code, ungated: ungated.get(measures.cylinder)! }),
    }
  })
}

function parametersOf(
  { durationS = 2.6, speed, sampleHz, digitiser, pickup, cylinders, each }: RunKind,
  seed: number,
  random: ReturnType<typeof makeRandom>,
): CaptureParameters {
  const base = distributorCapture({ cylinders: 4, seed, durationS })
  // A shared fault half of the time, else every cylinder by itself.
  const shared = random.uniform() < 0.5 ? random.uniform() : undefined
  const mixtures = new Map(
    [1, 2, 3, 4].map((cylinder) => {
      const u = shared ?? random.uniform()
      const mixtureKv =
        u < 0.45 ? 0.75 + 0.3 * random.uniform() : u < 0.6 ? -0.75 - 0.1 * random.uniform() : 0
      return [cylinder, { ...cylinders, ...each?.get(cylinder), mixtureKv }] as const
    }),
  )
  const set = withCylinders(base, mixtures)
  return {
    ...set,
    pickups: set.pickups.map((p) => ({ ...p, ...pickup })),
    engine: { ...set.engine, speed: { ...set.engine.speed, ...speed } },
    recorder: {
      ...base.recorder,
      sampleHz: sampleHz ?? 200_000,
      secondary: { ...base.recorder.secondary, ...digitiser },
    },
  }
}
