import { distributorCapture, withCylinders } from '../../model/capture-parameters.ts'
import { POOR_RECORDER } from '../../model/recorder.ts'
import type { FileStyle } from '../capture-file.ts'
import type { DemoJob, LogLine } from '../demo-job.ts'
import { trims } from '../log-lines.ts'
import { SHOP, TECHNICIANS } from '../scenario.ts'

/** An old handheld recorder: 100 kS/s, 8 bits over 8 kV either way, so firing lines are missed or cut and steps are coarse. */
const low = -8
const high = 8
const parameters = {
  ...withCylinders(
    distributorCapture({ cylinders: 4, seed: 7501, durationS: 3.3, rpm: 815 }),
    new Map([
      [2, { mixtureKv: 0.42, breakdownFactor: 1.1 }],
      [4, { gap: { gapMm: 1.3, pressureKpa: 500, temperatureK: 550 } }],
    ]),
  ),
  recorder: { ...POOR_RECORDER, secondary: { ...POOR_RECORDER.secondary, low, high } },
}

/** Its files: semicolons, decimal commas, three lines of talk, a row of units, a time column in ms. */
const style: FileStyle = {
  separator: ';',
  decimal: ',',
  preamble: ['Handheld recorder (simulated)', 'Channel A: clamp 1000:1', 'Channel B: trigger'],
  unitsRow: true,
  time: { name: 'Time', unit: 'ms', perS: 1000, decimals: 2 },
  columns: [
    { name: 'Channel A', unit: 'V', perUnit: 1, decimals: 3 },
    { name: 'Channel B', unit: 'V', perUnit: 1, decimals: 2 },
  ],
}

const at = (time: string): string => `2026-03-06T${time}:00+00:00`
const log: LogLine[] = [
  {
    at: at('15:10'),
    step: 'note',
    note: 'taken at the roadside with the old handheld; the shop scope was on another job',
  },
  ...trims({ at: at('15:18'), condition: 'idle' }, { STFT1: 4.7, LTFT1: 6.3 }),
  {
    at: at('15:26'),
    step: 'vacuum',
    condition: 'idle',
    reading: 'manifold',
    value: 17.8,
    unit: 'inHg',
    expected_low: 17,
    expected_high: 21,
  },
  {
    at: at('15:34'),
    step: 'spray',
    place: 'runner joint cylinder 2',
    condition: 'idle',
    reading: 'starting-fluid',
    outcome: 'no response',
    note: 'by ear, no trace',
  },
]

export const slowRecorderVan: DemoJob = {
  folder: 'slow-recorder-van',
  job: {
    format: 1,
    work_order: 'KB-26-0307',
    opened: '2026-03-06',
    shop: SHOP,
    technician: TECHNICIANS.sample,
    customer: { name: 'C. Placeholder (invented)' },
    vehicle: {
      plate: 'DEMO 40',
      year: 1996,
      make: 'Demo',
      model: 'Van 2.0',
      odometer: { value: 312_450, unit: 'km' },
    },
    engine: {
      cylinders: 4,
      firing_order: [1, 3, 4, 2],
      ignition: 'distributor',
      fuel: 'E0',
      displacement_l: 2,
    },
    complaint: 'Hesitates when pulling away',
    instrument: {
      description: 'Handheld recorder, 8 bits, clamp of unknown ratio (simulated)',
      voltage_uncertainty_percent: 15,
      time_uncertainty_ppm: 200,
    },
    captures: [
      {
        file: 'captures/roadside-idle.csv.gz',
        stage: 'before',
        condition: 'idle',
        engine: 'warm',
        taken: '2026-03-06T15:14:00+00:00',
        time: { column: 'Time', unit: 'ms' },
        channels: [
          { column: 'Channel A', carries: 'secondary', cylinders: 'all', unit: 'V', scale: 1000 },
          { column: 'Channel B', carries: 'sync', cylinder: 1, unit: 'V' },
        ],
      },
    ],
  },
  log,
  traces: new Map(),
  captures: new Map([['captures/roadside-idle.csv.gz', { parameters, style }]]),
}
