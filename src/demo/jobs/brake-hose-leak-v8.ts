import { distributorCapture, withCylinders, type CaptureParameters } from '../../model/capture-parameters.ts'
import type { CylinderState } from '../../model/cylinder-state.ts'
import type { SpeedTraceParameters } from '../../model/speed-trace.ts'
import type { DemoJob, JobText, LogLine } from '../demo-job.ts'
import { fuelPressure, gases, spray, trims } from '../log-lines.ts'
import { INSTRUMENT, plainStyle, SHOP, SHOP_LIMITS_KV, shopRecorder, TECHNICIANS } from '../scenario.ts'

/**
 * Eight cylinders, all lean at an idle that lopes: air gets in through the brake servo's hose tee, upstream of every
 * runner, and weighs the more the lower the speed; the idle control answers late and hunts.
 */
const idle = (
  seed: number,
  speed: { swingRpm: number; jitterRpm: number; mixtureKvPerRpm?: number },
): CaptureParameters => {
  const healthy = distributorCapture({ cylinders: 8, seed, durationS: 3.4, rpm: 740 })
  return {
    ...healthy,
    recorder: shopRecorder(400_000),
    engine: { ...healthy.engine, speed: { rpm: 740, swingPeriodS: 1.5, ...speed } },
  }
}

/** The leak starves the cylinders near the tee a little more than the rest. */
const LEAN_KV: readonly number[] = [0.74, 0.7, 0.78, 0.66, 0.72, 0.69, 0.81, 0.75]
const before = withCylinders(
  idle(7101, { swingRpm: 330, jitterRpm: 5, mixtureKvPerRpm: 0.0008 }),
  new Map(
    LEAN_KV.map((mixtureKv, i): [number, Partial<CylinderState>] => [
      i + 1,
      { mixtureKv, breakdownFactor: 1.06, turbulenceKv: 0.02 },
    ]),
  ),
)
const after = idle(7102, { swingRpm: 8, jitterRpm: 2.5 })

const uneasyIdle = (seed: number, durationS: number): SpeedTraceParameters => ({
  seed,
  durationS,
  sampleHz: 20,
  rpm: 742,
  swingRpm: 330,
  swingHz: 0.67,
  driftRpm: 5,
  noiseRpm: 4,
  stepRpm: 1,
  controlS: 5,
  sprays: [],
  blips: [],
})
const traces = new Map<string, SpeedTraceParameters>([
  [
    'traces/spray-search.csv',
    {
      ...uneasyIdle(7111, 150),
      blips: [{ atS: 138, rpm: 500 }],
      sprays: [
        { fromS: 30, toS: 33, responseRpm: 0, delayS: 1 },
        { fromS: 52, toS: 55, responseRpm: 0, delayS: 1 },
        { fromS: 74, toS: 77, responseRpm: 0, delayS: 1 },
        { fromS: 96, toS: 99, responseRpm: 190, delayS: 0.6 },
        { fromS: 118, toS: 120.5, responseRpm: 175, delayS: 0.7 },
      ],
    },
  ],
  [
    'traces/spray-port-capped.csv',
    {
      ...uneasyIdle(7112, 80),
      swingRpm: 12,
      sprays: [
        { fromS: 35, toS: 38, responseRpm: 0, delayS: 1 },
        { fromS: 58, toS: 61, responseRpm: 0, delayS: 1 },
      ],
    },
  ],
  [
    'traces/spray-after-repair.csv',
    {
      ...uneasyIdle(7113, 80),
      swingRpm: 8,
      sprays: [
        { fromS: 35, toS: 38, responseRpm: 0, delayS: 1 },
        { fromS: 58, toS: 61, responseRpm: 0, delayS: 1 },
      ],
    },
  ],
])

const TEE = 'brake servo hose tee'
const at = (time: string): string => `2026-03-02T${time}:00+00:00`
const searched = { condition: 'idle', trace: 'traces/spray-search.csv' }

const log: LogLine[] = [
  { at: at('09:05'), step: 'code', reading: 'P0171', note: 'stored and pending' },
  { at: at('09:05'), step: 'code', reading: 'P0174', note: 'stored' },
  ...trims({ at: at('09:20'), condition: 'idle' }, { STFT1: 11.7, LTFT1: 19.5, STFT2: 12.5, LTFT2: 18.8 }),
  ...trims({ at: at('09:26'), condition: '2500 rpm' }, { STFT1: 2.3, LTFT1: 5.5, STFT2: 1.6, LTFT2: 6.3 }),
  { at: at('09:30'), step: 'airflow', condition: 'idle', reading: 'MAF', value: 5.9, unit: 'g/s' },
  { at: at('09:32'), step: 'airflow', condition: '2500 rpm', reading: 'MAF', value: 24.5, unit: 'g/s' },
  {
    at: at('09:36'),
    step: 'vacuum',
    condition: 'idle',
    reading: 'manifold',
    value: 14.5,
    unit: 'inHg',
    expected_low: 17,
    expected_high: 22,
    note: 'needle swings',
  },
  ...gases(
    { at: at('09:44'), condition: 'idle' },
    { CO: 0.11, CO2: 13.9, HC: 140, O2: 1.7 },
    'before the catalyst',
  ),
  ...fuelPressure({ at: at('09:55') }, { keyOn: 384, idle: 379, hold: 371 }, { low: 360, high: 400 }),
  spray(
    { at: at('10:10'), ...searched, from_s: 30, to_s: 33, outcome: 'no response' },
    'throttle body gasket',
  ),
  spray(
    { at: at('10:11'), ...searched, from_s: 52, to_s: 55, outcome: 'no response' },
    'left manifold gasket',
  ),
  spray(
    { at: at('10:12'), ...searched, from_s: 74, to_s: 77, outcome: 'no response' },
    'right manifold gasket',
  ),
  spray(
    {
      at: at('10:13'),
      ...searched,
      from_s: 96,
      to_s: 99,
      outcome: 'response',
      note: 'speed comes up and the shake goes',
    },
    TEE,
  ),
  spray(
    {
      at: at('10:14'),
      ...searched,
      from_s: 118,
      to_s: 120.5,
      outcome: 'response',
      note: 'repeat of the same place',
    },
    TEE,
  ),
  {
    at: at('10:25'),
    step: 'cap',
    place: TEE,
    condition: 'idle',
    outcome: 'fixed',
    note: 'port plugged at the manifold: idle settles',
  },
  ...trims(
    { at: at('10:29'), condition: 'idle, port capped' },
    { STFT1: 0.8, LTFT1: 14.1, STFT2: 1.6, LTFT2: 13.3 },
  ),
  spray(
    {
      at: at('10:32'),
      condition: 'idle',
      trace: 'traces/spray-port-capped.csv',
      from_s: 35,
      to_s: 38,
      outcome: 'no response',
      note: 'port still capped',
    },
    TEE,
  ),
  spray(
    {
      at: at('10:33'),
      condition: 'idle',
      trace: 'traces/spray-port-capped.csv',
      from_s: 58,
      to_s: 61,
      outcome: 'no response',
      note: 'port still capped',
    },
    'right manifold gasket',
  ),
  {
    at: at('10:40'),
    step: 'uncap',
    place: TEE,
    condition: 'idle',
    outcome: 'response',
    note: 'shake is back at once',
  },
  { at: at('10:52'), step: 'smoke', place: TEE, outcome: 'leak', note: 'smoke from a split under the clip' },
  { at: at('10:58'), step: 'smoke', place: 'throttle body gasket', outcome: 'no leak' },
  {
    at: at('11:40'),
    step: 'repair',
    place: TEE,
    outcome: 'fixed',
    note: 'hose and tee renewed, both clips new; trims reset',
  },
  ...trims(
    { at: at('12:25'), stage: 'after', condition: 'idle' },
    { STFT1: 0.8, LTFT1: 1.6, STFT2: -0.8, LTFT2: 2.3 },
  ),
  ...trims(
    { at: at('12:30'), stage: 'after', condition: '2500 rpm' },
    { STFT1: 0.8, LTFT1: 0.8, STFT2: 0, LTFT2: 1.6 },
  ),
  {
    at: at('12:34'),
    step: 'vacuum',
    stage: 'after',
    condition: 'idle',
    reading: 'manifold',
    value: 18.5,
    unit: 'inHg',
    expected_low: 17,
    expected_high: 22,
  },
  ...gases(
    { at: at('12:41'), stage: 'after', condition: 'idle' },
    { CO: 0.28, CO2: 14.9, HC: 70, O2: 0.35 },
    'before the catalyst',
  ),
  spray(
    {
      at: at('12:50'),
      stage: 'after',
      condition: 'idle',
      trace: 'traces/spray-after-repair.csv',
      from_s: 35,
      to_s: 38,
      outcome: 'no response',
    },
    TEE,
  ),
  spray(
    {
      at: at('12:51'),
      stage: 'after',
      condition: 'idle',
      trace: 'traces/spray-after-repair.csv',
      from_s: 58,
      to_s: 61,
      outcome: 'no response',
    },
    'left manifold gasket',
  ),
]

const capture = (stage: 'before' | 'after', taken: string): NonNullable<JobText['captures']>[number] => ({
  file: `captures/idle-${stage}.csv.gz`,
  stage,
  condition: 'idle',
  engine: 'warm',
  taken,
  time: { sample_rate_hz: 400_000 },
  channels: [
    { column: 'secondary_kv', carries: 'secondary', cylinders: 'all', unit: 'kV', limits: SHOP_LIMITS_KV },
    { column: 'sync_v', carries: 'sync', cylinder: 1, unit: 'V' },
  ],
})

const style = plainStyle('secondary_kv', 'sync_v')

export const brakeHoseLeakV8: DemoJob = {
  folder: 'brake-hose-leak-v8',
  job: {
    format: 1,
    work_order: 'KB-26-0301',
    opened: '2026-03-02',
    closed: '2026-03-02',
    shop: SHOP,
    technician: TECHNICIANS.sample,
    customer: { name: 'Demo Parcel Fleet', contact: 'fleet desk (invented)', reference: 'unit 14' },
    vehicle: {
      vin: '11111111111111111',
      plate: 'DEMO 14',
      unit_number: '14',
      year: 2001,
      make: 'Demo',
      model: 'Carrier V8',
      odometer: { value: 148_220, unit: 'mi' },
    },
    engine: {
      cylinders: 8,
      firing_order: [1, 8, 4, 3, 6, 5, 7, 2],
      ignition: 'distributor',
      fuel: 'E10',
      displacement_l: 5.2,
      banks: { 1: [1, 3, 5, 7], 2: [2, 4, 6, 8] },
    },
    complaint: 'Idle lopes and shakes when warm, warning lamp on; drives well',
    cause: 'Air leak at the brake servo hose tee',
    correction: 'Hose, tee and clips renewed',
    instrument: INSTRUMENT,
    captures: [capture('before', '2026-03-02T09:12:00+00:00'), capture('after', '2026-03-02T12:15:00+00:00')],
    traces: [...traces.keys()].map((file) => ({
      file,
      time: { column: 'time_s', unit: 's' as const },
      channels: [{ column: 'rpm', carries: 'speed' as const, unit: 'rpm' as const }],
    })),
  },
  log,
  traces,
  captures: new Map([
    ['captures/idle-before.csv.gz', { parameters: before, style }],
    ['captures/idle-after.csv.gz', { parameters: after, style }],
  ]),
}
