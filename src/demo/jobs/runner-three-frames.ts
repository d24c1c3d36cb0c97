import { distributorCapture, withCylinders, type CaptureParameters } from '../../model/capture-parameters.ts'
import { triggeredFrames } from '../../model/triggered-frames.ts'
import type { FileStyle } from '../capture-file.ts'
import type { DemoJob, LogLine } from '../demo-job.ts'
import { trims } from '../log-lines.ts'
import { INSTRUMENT, SHOP, SHOP_LIMITS_KV, shopRecorder, TECHNICIANS } from '../scenario.ts'

/** Four cylinders, the runner joint of cylinder 3 open: that one is lean, the others level. */
const whole: CaptureParameters = {
  ...withCylinders(
    distributorCapture({ cylinders: 4, seed: 7701, durationS: 4.9, rpm: 790 }),
    new Map([[3, { mixtureKv: 0.85, breakdownFactor: 1.08 }]]),
  ),
  recorder: shopRecorder(150_000),
}
/** The scope was left in triggered mode: a frame of one cycle at every second firing of cylinder 1, nothing between. */
const parameters = triggeredFrames(whole, { cylinder: 1, every: 2 }, { beforeS: 8e-3, afterS: 0.132 })

const style: FileStyle = {
  separator: ',',
  decimal: '.',
  preamble: [],
  unitsRow: false,
  time: { name: 't_us', unit: 'us', perS: 1e6, decimals: 0 },
  columns: [
    { name: 'secondary', unit: 'kV', perUnit: 1, decimals: 3 },
    { name: 'sync', unit: 'V', perUnit: 1, decimals: 2 },
  ],
}

const JOINT = 'runner joint cylinder 3'
const at = (time: string): string => `2026-03-07T${time}:00+00:00`
const log: LogLine[] = [
  { at: at('09:05'), step: 'code', reading: 'P0303', note: 'pending' },
  ...trims({ at: at('09:14'), condition: 'idle' }, { STFT1: 4.7, LTFT1: 6.3 }),
  ...trims({ at: at('09:19'), condition: '2500 rpm' }, { STFT1: 0.8, LTFT1: 2.3 }),
  { at: at('09:40'), step: 'smoke', place: JOINT, outcome: 'leak', note: 'at the upper stud' },
]

export const runnerThreeFrames: DemoJob = {
  folder: 'runner-three-frames',
  job: {
    format: 1,
    work_order: 'KB-26-0308',
    opened: '2026-03-07',
    shop: SHOP,
    technician: TECHNICIANS.sample,
    customer: { name: 'G. Placeholder (invented)' },
    vehicle: {
      plate: 'DEMO 52',
      year: 2000,
      make: 'Demo',
      model: 'Hatchback 1.8',
      odometer: { value: 143_900, unit: 'km' },
    },
    engine: {
      cylinders: 4,
      firing_order: [1, 3, 4, 2],
      ignition: 'distributor',
      fuel: 'E5',
      displacement_l: 1.8,
    },
    complaint: 'Shakes at idle when warm',
    instrument: INSTRUMENT,
    captures: [
      {
        file: 'captures/idle-frames.csv.gz',
        stage: 'before',
        condition: 'idle',
        engine: 'warm',
        taken: '2026-03-07T09:25:00+00:00',
        time: { column: 't_us', unit: 'us' },
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
  captures: new Map([['captures/idle-frames.csv.gz', { parameters, style }]]),
}
