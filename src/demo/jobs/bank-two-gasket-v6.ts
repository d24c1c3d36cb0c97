import { distributorCapture, withCylinders, type CaptureParameters } from '../../model/capture-parameters.ts'
import type { CylinderState } from '../../model/cylinder-state.ts'
import type { SpeedTraceParameters } from '../../model/speed-trace.ts'
import type { FileStyle } from '../capture-file.ts'
import type { DemoJob, JobText, LogLine } from '../demo-job.ts'
import { fuelPressure, gases, spray, trims } from '../log-lines.ts'
import { INSTRUMENT, SHOP, shopRecorder, TECHNICIANS } from '../scenario.ts'

/** Six cylinders in two banks; the manifold gasket of bank 2 leaks, so its three cylinders are lean. */
const idle = (seed: number, swingRpm: number): CaptureParameters => {
  const healthy = distributorCapture({ cylinders: 6, seed, durationS: 3.4, rpm: 765 })
  return {
    ...healthy,
    recorder: shopRecorder(250_000),
    engine: { ...healthy.engine, speed: { rpm: 765, swingPeriodS: 1.1, swingRpm, jitterRpm: 3.5 } },
  }
}
const LEAN: ReadonlyMap<number, Partial<CylinderState>> = new Map([
  [2, { mixtureKv: 0.82, breakdownFactor: 1.07 }],
  [4, { mixtureKv: 0.95, breakdownFactor: 1.09 }],
  [6, { mixtureKv: 0.78, breakdownFactor: 1.06 }],
])
const before = withCylinders(idle(7201, 22), LEAN)
const after = idle(7202, 6)

/** This scope writes volts after a 1000:1 clamp, tab-separated, times rate from the header. */
const style: FileStyle = {
  separator: '\t',
  decimal: '.',
  preamble: [],
  unitsRow: true,
  time: undefined,
  columns: [
    { name: 'clamp', unit: 'V', perUnit: 1, decimals: 3 },
    { name: 'trigger', unit: 'V', perUnit: 1, decimals: 2 },
  ],
}

const search: SpeedTraceParameters = {
  seed: 7211,
  durationS: 125,
  sampleHz: 20,
  rpm: 768,
  swingRpm: 18,
  swingHz: 0.9,
  driftRpm: 4,
  noiseRpm: 4,
  stepRpm: 1,
  controlS: 6,
  blips: [],
  sprays: [
    { fromS: 28, toS: 31, responseRpm: 0, delayS: 1 },
    { fromS: 50, toS: 53, responseRpm: 0, delayS: 1 },
    { fromS: 74, toS: 77, responseRpm: 62, delayS: 0.5 },
    { fromS: 98, toS: 101, responseRpm: 58, delayS: 0.6 },
  ],
}

const GASKET = 'intake manifold gasket bank 2'
const at = (time: string): string => `2026-03-03T${time}:00+00:00`
const searched = { condition: 'idle', trace: 'traces/spray-search.csv' }
const log: LogLine[] = [
  { at: at('08:40'), step: 'code', reading: 'P0174', note: 'stored; no code for bank 1' },
  ...trims({ at: at('08:55'), condition: 'idle' }, { STFT1: 1.6, LTFT1: 2.3, STFT2: 9.4, LTFT2: 16.4 }),
  ...trims({ at: at('09:01'), condition: '2500 rpm' }, { STFT1: 0.8, LTFT1: 1.6, STFT2: 2.3, LTFT2: 4.7 }),
  { at: at('09:06'), step: 'airflow', condition: 'idle', reading: 'MAF', value: 4.1, unit: 'g/s' },
  {
    at: at('09:10'),
    step: 'vacuum',
    condition: 'idle',
    reading: 'manifold',
    value: 16.8,
    unit: 'inHg',
    expected_low: 16,
    expected_high: 21,
  },
  ...fuelPressure({ at: at('09:20') }, { keyOn: 352, idle: 349, hold: 340 }, { low: 330, high: 370 }),
  ...gases(
    { at: at('09:31'), condition: 'idle' },
    { CO: 0.16, CO2: 14.2, HC: 120, O2: 1.15 },
    'tailpipe of bank 2',
  ),
  spray(
    { at: at('09:45'), ...searched, from_s: 28, to_s: 31, outcome: 'no response' },
    'throttle body gasket',
    'propane',
  ),
  spray(
    { at: at('09:46'), ...searched, from_s: 50, to_s: 53, outcome: 'no response' },
    'intake manifold gasket bank 1',
    'propane',
  ),
  spray({ at: at('09:47'), ...searched, from_s: 74, to_s: 77, outcome: 'response' }, GASKET, 'propane'),
  spray(
    { at: at('09:48'), ...searched, from_s: 98, to_s: 101, outcome: 'response', note: 'repeat' },
    GASKET,
    'propane',
  ),
  { at: at('10:05'), step: 'smoke', place: GASKET, outcome: 'leak', note: 'at the foot of runner 4' },
  {
    at: at('13:30'),
    step: 'repair',
    place: GASKET,
    outcome: 'fixed',
    note: 'manifold off, faces cleaned, both gaskets renewed, tightened in order',
  },
  ...trims(
    { at: at('14:20'), stage: 'after', condition: 'idle' },
    { STFT1: 0.8, LTFT1: 1.6, STFT2: 1.6, LTFT2: 2.3 },
  ),
  ...gases(
    { at: at('14:28'), stage: 'after', condition: 'idle' },
    { CO: 0.3, CO2: 14.8, HC: 65, O2: 0.4 },
    'tailpipe of bank 2',
  ),
]

const capture = (stage: 'before' | 'after', taken: string): NonNullable<JobText['captures']>[number] => ({
  file: `captures/idle-${stage}.csv.gz`,
  stage,
  condition: 'idle',
  engine: 'warm',
  taken,
  time: { sample_rate_hz: 250_000 },
  channels: [
    {
      column: 'clamp',
      carries: 'secondary',
      cylinders: 'all',
      unit: 'V',
      scale: 1000,
      polarity: 'positive',
      limits: [-16, 15.969],
    },
    { column: 'trigger', carries: 'sync', cylinder: 1, unit: 'V' },
  ],
})

export const bankTwoGasketV6: DemoJob = {
  folder: 'bank-two-gasket-v6',
  job: {
    format: 1,
    work_order: 'KB-26-0302',
    opened: '2026-03-03',
    closed: '2026-03-03',
    shop: SHOP,
    technician: TECHNICIANS.specimen,
    customer: { name: 'A. Placeholder (invented)' },
    vehicle: {
      plate: 'DEMO 26',
      year: 2001,
      make: 'Demo',
      model: 'Saloon V6',
      odometer: { value: 201_344, unit: 'km' },
    },
    engine: {
      cylinders: 6,
      firing_order: [1, 5, 3, 6, 2, 4],
      ignition: 'distributor',
      fuel: 'E5',
      displacement_l: 3,
      banks: { 1: [1, 3, 5], 2: [2, 4, 6] },
    },
    complaint: 'Stumbles at a warm idle, clears on the road',
    cause: 'Intake manifold gasket of bank 2',
    correction: 'Both manifold gaskets renewed',
    instrument: INSTRUMENT,
    captures: [capture('before', '2026-03-03T08:48:00+00:00'), capture('after', '2026-03-03T14:12:00+00:00')],
    traces: [
      {
        file: 'traces/spray-search.csv',
        time: { column: 'time_s', unit: 's' },
        channels: [{ column: 'rpm', carries: 'speed', unit: 'rpm' }],
      },
    ],
  },
  log,
  traces: new Map([['traces/spray-search.csv', search]]),
  captures: new Map([
    ['captures/idle-before.csv.gz', { parameters: before, style }],
    ['captures/idle-after.csv.gz', { parameters: after, style }],
  ]),
}
