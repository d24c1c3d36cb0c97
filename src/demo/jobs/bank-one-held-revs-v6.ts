import { distributorCapture, withCylinders, type CaptureParameters } from '../../model/capture-parameters.ts'
import type { CylinderState } from '../../model/cylinder-state.ts'
import type { DemoJob, LogLine } from '../demo-job.ts'
import { fuelPressure, trims } from '../log-lines.ts'
import { INSTRUMENT, plainStyle, SHOP, SHOP_LIMITS_KV, shopRecorder, TECHNICIANS } from '../scenario.ts'

/**
 * Six cylinders in two banks, recorded at 2500 rpm, where the complaint shows: the joint between bank 1 and its half of
 * the manifold is open, so its three cylinders are lean and those of bank 2, the measure at that speed, are level.
 */
const healthy = distributorCapture({ cylinders: 6, seed: 7601, durationS: 1.3, rpm: 2500 })
const LEAN: ReadonlyMap<number, Partial<CylinderState>> = new Map([
  [1, { mixtureKv: 0.95, breakdownFactor: 1.08 }],
  [3, { mixtureKv: 1.02, breakdownFactor: 1.1 }],
  [5, { mixtureKv: 0.9, breakdownFactor: 1.07 }],
])
const parameters: CaptureParameters = { ...withCylinders(healthy, LEAN), recorder: shopRecorder(250_000) }

const JOINT = 'manifold joint bank 1'
const at = (time: string): string => `2026-03-05T${time}:00+00:00`
const log: LogLine[] = [
  { at: at('11:02'), step: 'code', reading: 'P0171', note: 'stored; no code for bank 2' },
  ...trims({ at: at('11:10'), condition: 'idle' }, { STFT1: 8.6, LTFT1: 15.6, STFT2: 0.8, LTFT2: 2.3 }),
  ...trims({ at: at('11:14'), condition: '2500 rpm' }, { STFT1: 5.5, LTFT1: 10.9, STFT2: 0.8, LTFT2: 1.6 }),
  ...fuelPressure({ at: at('11:30') }, { keyOn: 351, idle: 348, hold: 342 }, { low: 330, high: 370 }),
  { at: at('11:48'), step: 'smoke', place: JOINT, outcome: 'leak', note: 'along the lower edge' },
]

export const bankOneHeldRevsV6: DemoJob = {
  folder: 'bank-one-held-revs-v6',
  job: {
    format: 1,
    work_order: 'KB-26-0309',
    opened: '2026-03-05',
    shop: SHOP,
    technician: TECHNICIANS.specimen,
    customer: { name: 'F. Placeholder (invented)' },
    vehicle: {
      plate: 'DEMO 44',
      year: 1999,
      make: 'Demo',
      model: 'Estate V6',
      odometer: { value: 178_020, unit: 'km' },
    },
    engine: {
      cylinders: 6,
      firing_order: [1, 5, 3, 6, 2, 4],
      ignition: 'distributor',
      fuel: 'E5',
      displacement_l: 2.8,
      banks: { 1: [1, 3, 5], 2: [2, 4, 6] },
    },
    complaint: 'Shakes when the revs are held on the motorway; the manifold was off last month',
    instrument: INSTRUMENT,
    captures: [
      {
        file: 'captures/held-2500.csv.gz',
        stage: 'before',
        condition: '2500 rpm',
        engine: 'warm',
        taken: '2026-03-05T11:20:00+00:00',
        time: { sample_rate_hz: 250_000 },
        channels: [
          {
            column: 'secondary',
            carries: 'secondary',
            cylinders: 'all',
            unit: 'kV',
            polarity: 'positive',
            limits: SHOP_LIMITS_KV,
          },
          { column: 'sync', carries: 'sync', cylinder: 1, unit: 'V' },
        ],
      },
    ],
  },
  log,
  traces: new Map(),
  captures: new Map([['captures/held-2500.csv.gz', { parameters, style: plainStyle('secondary', 'sync') }]]),
}
