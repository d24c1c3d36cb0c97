import { plugTopCapture, withCylinders, type CaptureParameters } from '../../model/capture-parameters.ts'
import type { CylinderState } from '../../model/cylinder-state.ts'
import type { DemoJob, JobText, LogLine } from '../demo-job.ts'
import { gases, trims } from '../log-lines.ts'
import { INSTRUMENT, plainStyle, SHOP, SHOP_LIMITS_KV, shopRecorder, TECHNICIANS } from '../scenario.ts'

/** Three cylinders with plug-top coils: a burnt contact spring above plug 2 adds resistance, and the plug is worn. */
const RESISTED: Partial<CylinderState> = {
  seriesKohm: 46,
  gap: { gapMm: 1.25, pressureKpa: 500, temperatureK: 550 },
}
const idle = (seed: number): CaptureParameters => ({
  ...plugTopCapture({ cylinders: 3, seed, durationS: 3.3, rpm: 850 }),
  recorder: shopRecorder(250_000),
})
const before = withCylinders(idle(7601), new Map([[2, RESISTED]]))

const columns = ['plug1_kv', 'plug2_kv', 'plug3_kv']
const capture = (stage: 'before' | 'after', taken: string): NonNullable<JobText['captures']>[number] => ({
  file: `captures/idle-${stage}.csv.gz`,
  stage,
  condition: 'idle',
  engine: 'warm',
  taken,
  time: { sample_rate_hz: 250_000 },
  channels: columns.map((column, i) => ({
    column,
    carries: 'secondary',
    cylinders: i + 1,
    unit: 'kV',
    limits: SHOP_LIMITS_KV,
  })),
})

const at = (time: string): string => `2026-03-06T${time}:00+00:00`
const log: LogLine[] = [
  { at: at('08:35'), step: 'code', reading: 'P0302', note: 'stored' },
  ...trims({ at: at('08:50'), condition: 'idle' }, { STFT1: 1.6, LTFT1: 2.3 }),
  ...gases({ at: at('08:58'), condition: 'idle' }, { CO: 0.31, CO2: 14.7, HC: 110, O2: 0.45 }),
  {
    at: at('09:15'),
    step: 'note',
    note: 'contact spring of coil 2 is burnt; 38 kOhm through the stem, neighbours 1.2 kOhm',
  },
  {
    at: at('09:50'),
    step: 'repair',
    place: 'coil stem cylinder 2',
    outcome: 'fixed',
    note: 'coil stem and all three plugs renewed',
  },
  ...trims({ at: at('10:20'), stage: 'after', condition: 'idle' }, { STFT1: 0.8, LTFT1: 1.6 }),
]

export const plugTopResistance: DemoJob = {
  folder: 'plug-top-resistance',
  job: {
    format: 1,
    work_order: 'KB-26-0306',
    opened: '2026-03-06',
    closed: '2026-03-06',
    shop: SHOP,
    technician: TECHNICIANS.specimen,
    customer: { name: 'Demo Parcel Fleet', reference: 'unit 31' },
    vehicle: {
      plate: 'DEMO 31',
      unit_number: '31',
      year: 2014,
      make: 'Demo',
      model: 'Runabout 1.0',
      odometer: { value: 98_760, unit: 'km' },
    },
    engine: {
      cylinders: 3,
      firing_order: [1, 3, 2],
      ignition: 'coil-per-cylinder',
      fuel: 'E10',
      displacement_l: 1,
    },
    complaint: 'Misses under load, lamp on',
    cause: 'Burnt contact in the coil stem of cylinder 2',
    correction: 'Coil stem and plugs renewed',
    instrument: INSTRUMENT,
    captures: [capture('before', '2026-03-06T08:41:00+00:00'), capture('after', '2026-03-06T10:12:00+00:00')],
  },
  log,
  traces: new Map(),
  captures: new Map([
    ['captures/idle-before.csv.gz', { parameters: before, style: plainStyle(...columns) }],
    ['captures/idle-after.csv.gz', { parameters: idle(7602), style: plainStyle(...columns) }],
  ]),
}
