import { wastedSparkCapture, withCylinders, type CaptureParameters } from '../../model/capture-parameters.ts'
import type { SpeedTraceParameters } from '../../model/speed-trace.ts'
import type { DemoJob, JobText, LogLine } from '../demo-job.ts'
import { gases, spray, trims } from '../log-lines.ts'
import { INSTRUMENT, plainStyle, SHOP, SHOP_LIMITS_KV, shopRecorder, TECHNICIANS } from '../scenario.ts'

/** Wasted spark, a clamp on each lead of one pair at a time; air at the joint of runner 2 makes that cylinder alone lean. */
type Pair = readonly [number, number]
const PAIRS: readonly Pair[] = [
  [1, 4],
  [3, 2],
]
const STAGES = [
  ['before', '2026-03-05T09'],
  ['after', '2026-03-05T13'],
] as const

function pairCapture(pair: Pair, stage: 'before' | 'after', seed: number): CaptureParameters {
  const healthy = wastedSparkCapture({
    cylinders: 4,
    seed,
    durationS: 3.2,
    rpm: 805,
    on: 'leads',
    pairs: [pair],
  })
  const lean = withCylinders(healthy, new Map([[2, { mixtureKv: 0.85, breakdownFactor: 1.08 }]]))
  return { ...(stage === 'before' ? lean : healthy), recorder: shopRecorder(250_000) }
}

const fileOf = (pair: Pair, stage: string): string => `captures/pair-${pair[0]}-${pair[1]}-${stage}.csv.gz`
const columnsOf = (pair: Pair): string[] => pair.map((cylinder) => `lead${cylinder}_kv`)
const each = STAGES.flatMap(([stage, hour], s) =>
  PAIRS.map((pair, p) => ({ stage, hour, pair, seed: 7401 + 10 * s + p, minute: 12 + 6 * p })),
)

const entries = each.map(({ stage, hour, pair, minute }): NonNullable<JobText['captures']>[number] => ({
  file: fileOf(pair, stage),
  stage,
  condition: 'idle',
  engine: 'warm',
  taken: `${hour}:${minute}:00+00:00`,
  time: { sample_rate_hz: 250_000 },
  channels: pair.map((cylinder) => ({
    column: `lead${cylinder}_kv`,
    carries: 'secondary',
    cylinders: cylinder,
    unit: 'kV',
    limits: SHOP_LIMITS_KV,
  })),
}))

const search: SpeedTraceParameters = {
  seed: 7451,
  durationS: 100,
  sampleHz: 20,
  rpm: 806,
  swingRpm: 14,
  swingHz: 1.1,
  driftRpm: 3,
  noiseRpm: 4,
  stepRpm: 1,
  controlS: 6,
  blips: [],
  sprays: [
    { fromS: 26, toS: 28.5, responseRpm: 0, delayS: 1 },
    { fromS: 50, toS: 52.5, responseRpm: 44, delayS: 0.4 },
    { fromS: 74, toS: 76.5, responseRpm: 47, delayS: 0.5 },
  ],
}

const JOINT = 'runner joint cylinder 2'
const at = (time: string): string => `2026-03-05T${time}:00+00:00`
const searched = { condition: 'idle', trace: 'traces/spray-search.csv' }
const log: LogLine[] = [
  { at: at('09:02'), step: 'code', reading: 'P0302', note: 'pending' },
  ...trims({ at: at('09:25'), condition: 'idle' }, { STFT1: 4.7, LTFT1: 5.5 }),
  ...trims({ at: at('09:29'), condition: '2500 rpm' }, { STFT1: 1.6, LTFT1: 2.3 }),
  ...gases({ at: at('09:36'), condition: 'idle' }, { CO: 0.22, CO2: 14.4, HC: 180, O2: 0.95 }),
  spray(
    { at: at('09:50'), ...searched, from_s: 26, to_s: 28.5, outcome: 'no response' },
    'runner joint cylinder 3',
    'propane',
  ),
  spray({ at: at('09:51'), ...searched, from_s: 50, to_s: 52.5, outcome: 'response' }, JOINT, 'propane'),
  spray({ at: at('09:52'), ...searched, from_s: 74, to_s: 76.5, outcome: 'response' }, JOINT, 'propane'),
  { at: at('11:40'), step: 'repair', place: JOINT, outcome: 'fixed', note: 'runner seal renewed' },
  ...trims({ at: at('13:30'), stage: 'after', condition: 'idle' }, { STFT1: 0.8, LTFT1: 2.3 }),
]

export const wastedSparkRunnerTwo: DemoJob = {
  folder: 'wasted-spark-runner-two',
  job: {
    format: 1,
    work_order: 'KB-26-0305',
    opened: '2026-03-05',
    closed: '2026-03-05',
    shop: SHOP,
    technician: TECHNICIANS.specimen,
    customer: { name: 'Demo Parcel Fleet', reference: 'unit 22' },
    vehicle: {
      plate: 'DEMO 22',
      unit_number: '22',
      year: 2006,
      make: 'Demo',
      model: 'Courier 1.8',
      odometer: { value: 176_005, unit: 'km' },
    },
    engine: {
      cylinders: 4,
      firing_order: [1, 3, 4, 2],
      ignition: 'wasted-spark',
      pairs: [
        [1, 4],
        [2, 3],
      ],
      fuel: 'E10',
      displacement_l: 1.8,
    },
    complaint: 'Light shake at idle, lamp flashes now and then',
    cause: 'Leaking runner joint, cylinder 2',
    correction: 'Runner seal renewed',
    instrument: INSTRUMENT,
    captures: entries,
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
  captures: new Map(
    each.map(({ stage, pair, seed }) => [
      fileOf(pair, stage),
      { parameters: pairCapture(pair, stage, seed), style: plainStyle(...columnsOf(pair)) },
    ]),
  ),
}
