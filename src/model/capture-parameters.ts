import type { CylinderState } from './cylinder-state.ts'
import { HEALTHY, HEALTHY_PAIR, HEALTHY_PLUG_TOP, EXHAUST_GAP } from './cylinder-state.ts'
import { DISTRIBUTOR_COIL, PAIR_COIL, PLUG_TOP_COIL } from './coil.ts'
import type { EngineModel } from './engine.ts'
import type { IgnitionModel } from './ignition.ts'
import { IDEAL_PICKUP, type Pickup } from './pickup.ts'
import { GOOD_RECORDER, type Recorder } from './recorder.ts'
import { GOOD_SYNC_CLAMP, type SyncModel } from './sync.ts'

/** Everything a simulated capture depends on. The same parameters give the same samples. */
export interface CaptureParameters {
  seed: number
  durationS: number
  engine: EngineModel
  ignition: IgnitionModel
  cylinders: ReadonlyMap<number, CylinderState>
  pickups: readonly Pickup[]
  /** Undefined: no sync channel. */
  sync: SyncModel | undefined
  recorder: Recorder
}

/** Usual firing orders by number of cylinders. Common practice, no source. */
const ORDERS: Readonly<Record<number, readonly number[]>> = {
  1: [1],
  2: [1, 2],
  3: [1, 3, 2],
  4: [1, 3, 4, 2],
  5: [1, 2, 4, 5, 3],
  6: [1, 5, 3, 6, 2, 4],
  8: [1, 8, 4, 3, 6, 5, 7, 2],
}

/** A firing order for a number of cylinders. @throws RangeError where none is known */
export function usualOrder(cylinders: number): readonly number[] {
  const order = ORDERS[cylinders]
  if (order === undefined) throw new RangeError(`no usual firing order for ${cylinders} cylinders`)
  return order
}

/** Cylinders that share a coil: those half the order apart. */
export function pairsOf(order: readonly number[]): (readonly [number, number])[] {
  const half = order.length / 2
  return order.slice(0, half).map((cylinder, i) => [cylinder, order[i + half]!] as const)
}

const states = (order: readonly number[], state: CylinderState): Map<number, CylinderState> =>
  new Map(order.map((cylinder) => [cylinder, state]))

function engine(order: readonly number[], rpm: number): EngineModel {
  return {
    strokes: 4,
    firingOrder: order,
    speed: { rpm, swingRpm: 0, swingPeriodS: 1, jitterRpm: rpm * 0.004 },
    misfireDrop: 0.04,
  }
}

/** A healthy engine at idle with a distributor: one pickup on the coil lead and a sync clamp on cylinder 1. */
export function distributorCapture(options: {
  cylinders: number
  seed: number
  durationS: number
  rpm?: number
}): CaptureParameters {
  const order = usualOrder(options.cylinders)
  return {
    seed: options.seed,
    durationS: options.durationS,
    engine: engine(order, options.rpm ?? 780),
    ignition: { kind: 'distributor', coil: DISTRIBUTOR_COIL },
    cylinders: states(order, HEALTHY),
    pickups: [{ ...IDEAL_PICKUP, sees: 'all' }],
    sync: GOOD_SYNC_CLAMP,
    recorder: GOOD_RECORDER,
  }
}

/** A healthy engine with a coil on every plug and a pickup on each of the cylinders named. */
export function plugTopCapture(options: {
  cylinders: number
  seed: number
  durationS: number
  rpm?: number
  recorded?: readonly number[]
}): CaptureParameters {
  const order = usualOrder(options.cylinders)
  const recorded = options.recorded ?? [...order].sort((a, b) => a - b)
  return {
    ...distributorCapture(options),
    ignition: { kind: 'coil-per-cylinder', coil: PLUG_TOP_COIL },
    cylinders: states(order, HEALTHY_PLUG_TOP),
    pickups: recorded.map((cylinder) => ({ ...IDEAL_PICKUP, sees: cylinder })),
    sync: undefined,
  }
}

/**
 * A healthy wasted-spark engine. `leads`: a pickup on each lead of the pairs named; `coil`: one across each whole coil,
 * with a sync clamp that tells whose turn it is.
 */
export function wastedSparkCapture(options: {
  cylinders: number
  seed: number
  durationS: number
  rpm?: number
  on: 'leads' | 'coil'
  pairs?: readonly (readonly [number, number])[]
}): CaptureParameters {
  const order = usualOrder(options.cylinders)
  const pairs = pairsOf(order)
  const leads = (options.pairs ?? pairs).flatMap(([first, second]): Pickup[] => [
    { ...IDEAL_PICKUP, sees: first, polarity: -1 },
    { ...IDEAL_PICKUP, sees: second },
  ])
  const coils = (options.pairs ?? pairs).map((pair): Pickup => ({ ...IDEAL_PICKUP, sees: pair }))
  return {
    ...distributorCapture(options),
    ignition: { kind: 'wasted-spark', coil: PAIR_COIL, pairs, exhaust: EXHAUST_GAP },
    cylinders: states(order, HEALTHY_PAIR),
    pickups: options.on === 'leads' ? leads : coils,
    sync: options.on === 'leads' ? undefined : GOOD_SYNC_CLAMP,
  }
}

/** The same capture with some cylinders in another state. */
export function withCylinders(
  parameters: CaptureParameters,
  changed: ReadonlyMap<number, Partial<CylinderState>>,
): CaptureParameters {
  const cylinders = new Map(parameters.cylinders)
  for (const [cylinder, change] of changed) {
    const state = cylinders.get(cylinder)
    if (state === undefined) throw new RangeError(`no cylinder ${cylinder}`)
    cylinders.set(cylinder, { ...state, ...change })
  }
  return { ...parameters, cylinders }
}
