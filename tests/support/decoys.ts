import { CAPACITOR_UNIT } from '../../src/model/capacitor-discharge.ts'
import {
  distributorCapture,
  plugTopCapture,
  wastedSparkCapture,
  withCylinders,
  type CaptureParameters,
} from '../../src/model/capture-parameters.ts'
import { DISTRIBUTOR_COIL, PLUG_TOP_COIL } from '../../src/model/coil.ts'
import type { CylinderState } from '../../src/model/cylinder-state.ts'
import { GOOD_RECORDER } from '../../src/model/recorder.ts'

/** A healthy engine whose capture looks like a fault, or a system that cannot be judged at all. */
export interface Decoy {
  name: string
  /** What must come out: every cylinder level or honestly not judged, or the whole capture refused. */
  expect: 'level' | 'refused'
  parameters: (seed: number) => CaptureParameters
}

const DURATION_S = 2.2
const four = (seed: number): CaptureParameters =>
  distributorCapture({ cylinders: 4, seed, durationS: DURATION_S })
const every = (parameters: CaptureParameters, state: Partial<CylinderState>): CaptureParameters =>
  withCylinders(parameters, new Map([...parameters.cylinders.keys()].map((cylinder) => [cylinder, state])))
const pickups = (
  parameters: CaptureParameters,
  change: Partial<CaptureParameters['pickups'][number]>,
): CaptureParameters => ({
  ...parameters,
  pickups: parameters.pickups.map((pickup) => ({ ...pickup, ...change })),
})

/** Shapes that fool a reader, one capture each. Sizes are this project's choice, towards the strong end of what is met. */
export const DECOYS: readonly Decoy[] = [
  {
    name: 'tall hook at spark end',
    expect: 'level',
    parameters: (seed) => every(four(seed), { holdA: 0.25e-3 }),
  },
  {
    name: 'ringing at the start',
    expect: 'level',
    parameters: (seed) => every(four(seed), { strikeRing: { share: 0.12, kHz: 65, decayUs: 30 } }),
  },
  {
    name: 'turbulence hash',
    expect: 'level',
    parameters: (seed) => every(four(seed), { turbulenceKv: 0.12 }),
  },
  {
    name: 'restrikes within an event',
    expect: 'level',
    parameters: (seed) => every(four(seed), { restrikes: 1.5 }),
  },
  {
    name: 'current-limit hump',
    expect: 'level',
    parameters: (seed) => ({
      ...four(seed),
      ignition: {
        kind: 'distributor',
        coil: { ...DISTRIBUTOR_COIL, dwellMs: 3.1, rippleZeta: 0.03, coupling: 0.95 },
      },
    }),
  },
  {
    name: 'droop of the pickup',
    expect: 'level',
    parameters: (seed) => pickups(four(seed), { droopS: 0.006 }),
  },
  {
    name: 'crosstalk from neighbours',
    expect: 'level',
    parameters: (seed) =>
      pickups(plugTopCapture({ cylinders: 4, seed, durationS: DURATION_S }), { crosstalk: 0.15 }),
  },
  {
    name: 'wasted sparks',
    expect: 'level',
    parameters: (seed) =>
      wastedSparkCapture({ cylinders: 4, seed, durationS: DURATION_S, on: 'leads', pairs: [[1, 4]] }),
  },
  {
    name: 'firing line lost between samples',
    expect: 'level',
    parameters: (seed) => ({ ...four(seed), recorder: { ...GOOD_RECORDER, sampleHz: 100_000 } }),
  },
  {
    name: 'capacitor discharge',
    expect: 'refused',
    parameters: (seed) => ({
      ...four(seed),
      ignition: { kind: 'capacitor-discharge', unit: CAPACITOR_UNIT },
    }),
  },
  {
    name: 'multi-strike',
    expect: 'refused',
    parameters: (seed) => ({
      ...plugTopCapture({ cylinders: 4, seed, durationS: DURATION_S }),
      ignition: {
        kind: 'multi-strike',
        coil: { ...PLUG_TOP_COIL, dwellMs: 2.4 },
        strikes: 3,
        strikeGapMs: 2,
        rechargeMs: 0.9,
      },
    }),
  },
]
