import { distributorCapture, withCylinders } from '../../model/capture-parameters.ts'
import { IDLE_GAP } from '../../model/cylinder-state.ts'
import type { DemoJob, LogLine } from '../demo-job.ts'
import { compressions, fuelPressure, gases, trims } from '../log-lines.ts'
import { INSTRUMENT, plainStyle, SHOP, SHOP_LIMITS_KV, shopRecorder, TECHNICIANS } from '../scenario.ts'

/** Four cylinders; the third has a burnt valve: low firing voltage, a line that falls after its middle, a long burn. Not repaired yet. */
const parameters = {
  ...withCylinders(
    distributorCapture({ cylinders: 4, seed: 7301, durationS: 3.4, rpm: 790 }),
    new Map([[3, { gap: { ...IDLE_GAP, pressureKpa: 310 }, mixtureKv: -0.56, breakdownFactor: 0.97 }]]),
  ),
  recorder: shopRecorder(250_000),
}

const at = (time: string): string => `2026-03-04T${time}:00+00:00`
const log: LogLine[] = [
  { at: at('08:30'), step: 'code', reading: 'P0303', note: 'stored' },
  ...trims({ at: at('08:44'), condition: 'idle' }, { STFT1: 2.3, LTFT1: 3.1 }),
  ...trims({ at: at('08:50'), condition: '2500 rpm' }, { STFT1: 1.6, LTFT1: 2.3 }),
  {
    at: at('08:58'),
    step: 'vacuum',
    condition: 'idle',
    reading: 'manifold',
    value: 16.2,
    unit: 'inHg',
    expected_low: 17,
    expected_high: 21,
    note: 'regular flick of the needle',
  },
  ...fuelPressure({ at: at('09:05') }, { keyOn: 301, idle: 298, hold: 290 }, { low: 280, high: 320 }),
  ...gases({ at: at('09:12'), condition: 'idle' }, { CO: 0.42, CO2: 14.1, HC: 310, O2: 0.9 }),
  ...compressions({ at: at('09:40'), condition: 'cranking' }, [12.3, 12.5, 7.1, 12.2], {
    low: 10,
    high: 13.5,
  }),
  {
    at: at('09:52'),
    step: 'note',
    note: 'oil in cylinder 3 does not raise the reading: 7.3 bar, so valve rather than rings',
  },
  {
    at: at('10:10'),
    step: 'note',
    note: 'customer asked for an estimate before the cylinder head comes off',
  },
]

export const thirdCylinderValve: DemoJob = {
  folder: 'third-cylinder-valve',
  job: {
    format: 1,
    work_order: 'KB-26-0304',
    opened: '2026-03-04',
    shop: SHOP,
    technician: TECHNICIANS.sample,
    customer: { name: 'B. Placeholder (invented)' },
    vehicle: {
      plate: 'DEMO 35',
      year: 1998,
      make: 'Demo',
      model: 'Hatch 1.6',
      odometer: { value: 239_870, unit: 'km' },
    },
    engine: {
      cylinders: 4,
      firing_order: [1, 3, 4, 2],
      ignition: 'distributor',
      fuel: 'E5',
      displacement_l: 1.6,
    },
    complaint: 'Uneven at idle, weak uphill, uses more fuel',
    instrument: INSTRUMENT,
    captures: [
      {
        file: 'captures/idle.csv.gz',
        stage: 'before',
        condition: 'idle',
        engine: 'warm',
        taken: '2026-03-04T08:36:00+00:00',
        time: { sample_rate_hz: 250_000 },
        channels: [
          {
            column: 'secondary_kv',
            carries: 'secondary',
            cylinders: 'all',
            unit: 'kV',
            limits: SHOP_LIMITS_KV,
          },
          { column: 'sync_v', carries: 'sync', cylinder: 1, unit: 'V' },
        ],
      },
    ],
  },
  log,
  traces: new Map(),
  captures: new Map([['captures/idle.csv.gz', { parameters, style: plainStyle('secondary_kv', 'sync_v') }]]),
}
