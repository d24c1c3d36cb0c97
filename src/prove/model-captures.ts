import type { Engine } from '../job/schema.ts'
import {
  distributorCapture,
  pairsOf,
  plugTopCapture,
  usualOrder,
  wastedSparkCapture,
  withCylinders,
  type CaptureParameters,
} from '../model/capture-parameters.ts'
import type { CylinderState } from '../model/cylinder-state.ts'
import { simulateCapture } from '../model/simulate-capture.ts'
import { asCapture } from './as-capture.ts'
import type { KnownCapture } from './known-capture.ts'

interface Case {
  name: string
  parameters: CaptureParameters
  odd: ReadonlyMap<number, readonly string[]>
}

const changed = (
  parameters: CaptureParameters,
  cylinder: number,
  state: Partial<CylinderState>,
): CaptureParameters => withCylinders(parameters, new Map([[cylinder, state]]))

/** One engine of each kind of ignition, with faults whose reading is plain. Sizes are those the model's conditions call plain or gross. */
const CASES: readonly Case[] = [
  {
    name: 'distributor, 4 cylinders, cylinder 3 lean',
    odd: new Map([[3, ['lean']]]),
    parameters: changed(distributorCapture({ cylinders: 4, seed: 101, durationS: 2.2 }), 3, {
      mixtureKv: 1.2,
      breakdownFactor: 1.1,
    }),
  },
  {
    name: 'distributor, 4 cylinders, cylinder 2 falling',
    odd: new Map([[2, ['falling']]]),
    parameters: changed(distributorCapture({ cylinders: 4, seed: 102, durationS: 2.2 }), 2, {
      mixtureKv: -0.8,
    }),
  },
  {
    name: 'distributor, 4 cylinders, lead of cylinder 3 open',
    odd: new Map([[3, ['open secondary']]]),
    parameters: changed(distributorCapture({ cylinders: 4, seed: 103, durationS: 2.2 }), 3, { openShare: 1 }),
  },
  {
    name: 'coil per cylinder, 4 cylinders, resistance on cylinder 4',
    odd: new Map([[4, ['external resistance']]]),
    parameters: changed(plugTopCapture({ cylinders: 4, seed: 104, durationS: 2.2 }), 4, { seriesKohm: 70 }),
  },
  {
    name: 'wasted spark, 4 leads, cylinder 2 lean',
    odd: new Map([[2, ['lean']]]),
    parameters: changed(wastedSparkCapture({ cylinders: 4, seed: 105, durationS: 2.2, on: 'leads' }), 2, {
      mixtureKv: 1.2,
    }),
  },
]

function engineOf({ engine, ignition }: CaptureParameters): Engine {
  const order = [...engine.firingOrder]
  const pairs =
    ignition.kind === 'wasted-spark'
      ? { pairs: pairsOf(usualOrder(order.length)).map(([a, b]) => [a, b] as [number, number]) }
      : {}
  const kind =
    ignition.kind === 'wasted-spark' || ignition.kind === 'coil-per-cylinder' ? ignition.kind : 'distributor'
  return {
    cylinders: order.length,
    strokes: engine.strokes,
    firing_order: order,
    ignition: kind,
    fuel: 'E0',
    ...pairs,
  }
}

/** Simulates them all, from fixed seeds: the same samples on every machine. */
export function modelCaptures(): KnownCapture[] {
  return CASES.map(({ name, parameters, odd }) => {
    const simulated = simulateCapture(parameters)
    const engine = engineOf(parameters)
    const events = simulated.truth.events.map((e) => ({
      channel: e.channel,
      cylinder: e.cylinder,
      kind: e.kind,
      breakdownS: e.breakdownS,
      complete: e.complete,
      burnMs: e.levels?.burnMs,
      midKv: e.levels?.midKv,
      lateRiseKv: e.levels?.lateRiseKv,
    }))
    const accept = new Map(engine.firing_order.map((c) => [c, odd.get(c) ?? ['level']]))
    return { name, origin: 'physical model', capture: asCapture(simulated), engine, events, accept }
  })
}
