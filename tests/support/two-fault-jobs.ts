import type { DemoJob, LogLine } from '../../src/demo/demo-job.ts'
import { compressions, fuelPressure, spray, trims } from '../../src/demo/log-lines.ts'
import {
  INSTRUMENT,
  plainStyle,
  SHOP,
  SHOP_LIMITS_KV,
  shopRecorder,
  TECHNICIANS,
} from '../../src/demo/scenario.ts'
import { distributorCapture, withCylinders } from '../../src/model/capture-parameters.ts'
import { IDLE_GAP, type CylinderState } from '../../src/model/cylinder-state.ts'
import type { SpeedTraceParameters } from '../../src/model/speed-trace.ts'

const at = (time: string): string => `2026-03-09T${time}:00+00:00`
const traced = { condition: 'idle', trace: 'traces/spray.csv' }

/** One trace, 90 s: the first place stays silent, the second answers twice. */
const search = (seed: number): SpeedTraceParameters => ({
  seed,
  durationS: 90,
  sampleHz: 10,
  rpm: 790,
  swingRpm: 30,
  swingHz: 0.6,
  driftRpm: 3,
  noiseRpm: 3,
  stepRpm: 1,
  controlS: 6,
  blips: [],
  sprays: [
    { fromS: 20, toS: 22.5, responseRpm: 0, delayS: 1 },
    { fromS: 45, toS: 47.5, responseRpm: 70, delayS: 0.5 },
    { fromS: 68, toS: 70.5, responseRpm: 65, delayS: 0.5 },
  ],
})
const sprayed = (silent: string, answers: string): LogLine[] => [
  spray({ at: at('09:40'), ...traced, from_s: 20, to_s: 22.5 }, silent, 'propane'),
  spray({ at: at('09:41'), ...traced, from_s: 45, to_s: 47.5 }, answers, 'propane'),
  spray({ at: at('09:42'), ...traced, from_s: 68, to_s: 70.5 }, answers, 'propane'),
]

function twoFaultJob(it: {
  folder: string
  order: string
  seed: number
  cylinders: ReadonlyMap<number, Partial<CylinderState>>
  log: readonly LogLine[]
}): DemoJob {
  const engine = withCylinders(
    distributorCapture({ cylinders: 4, seed: it.seed, durationS: 3.4, rpm: 790 }),
    it.cylinders,
  )
  return {
    folder: it.folder,
    job: {
      format: 1,
      work_order: it.order,
      opened: '2026-03-09',
      shop: SHOP,
      technician: TECHNICIANS.sample,
      vehicle: { year: 1999, make: 'Demo', model: 'Hatch 1.6' },
      engine: {
        cylinders: 4,
        firing_order: [1, 3, 4, 2],
        ignition: 'distributor',
        fuel: 'E5',
        displacement_l: 1.6,
      },
      complaint: 'Shakes at idle',
      instrument: INSTRUMENT,
      captures: [
        {
          file: 'captures/idle.csv.gz',
          stage: 'before',
          condition: 'idle',
          engine: 'warm',
          taken: at('08:36'),
          time: { sample_rate_hz: 500_000 },
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
      traces: [
        {
          file: 'traces/spray.csv',
          time: { column: 'time_s', unit: 's' },
          channels: [{ column: 'rpm', carries: 'speed', unit: 'rpm' }],
        },
      ],
    },
    log: it.log,
    traces: new Map([['traces/spray.csv', search(it.seed + 1)]]),
    captures: new Map([
      [
        'captures/idle.csv.gz',
        {
          parameters: { ...engine, recorder: shopRecorder(500_000) },
          style: plainStyle('secondary_kv', 'sync_v'),
        },
      ],
    ]),
  }
}

/** Air at the joint of runner 2, and on cylinder 4 a plug whose soot lets the voltage run off before the gap is at its height. */
export const JOINT_AND_PLUG = twoFaultJob({
  folder: 'joint-and-plug',
  order: 'KB-26-0901',
  seed: 9101,
  cylinders: new Map([
    [2, { mixtureKv: 0.85, breakdownFactor: 1.08 }],
    [4, { breakdownFactor: 0.5 }],
  ]),
  log: [
    { at: at('08:30'), step: 'code', reading: 'P0304', note: 'stored' },
    ...trims({ at: at('08:44'), condition: 'idle' }, { STFT1: 5.5, LTFT1: 6.2 }),
    ...trims({ at: at('08:50'), condition: '2500 rpm' }, { STFT1: 1.6, LTFT1: 2.3 }),
    ...compressions({ at: at('09:10'), condition: 'cranking' }, [12.3, 12.4, 12.1, 12.2], {
      low: 10,
      high: 13.5,
    }),
    ...sprayed('runner joint cylinder 3', 'runner joint cylinder 2'),
  ],
})

const LEAN: Partial<CylinderState> = { mixtureKv: 0.75, breakdownFactor: 1.05 }

/** A vacuum hose leaks, and the pump gives too little. */
export const HOSE_AND_PUMP = twoFaultJob({
  folder: 'hose-and-pump',
  order: 'KB-26-0902',
  seed: 9201,
  cylinders: new Map([1, 2, 3, 4].map((c) => [c, { ...LEAN, gap: IDLE_GAP }])),
  log: [
    { at: at('08:30'), step: 'code', reading: 'P0171', note: 'stored' },
    ...trims({ at: at('08:44'), condition: 'idle' }, { STFT1: 7, LTFT1: 18 }),
    ...trims({ at: at('08:50'), condition: '2500 rpm' }, { STFT1: 3.9, LTFT1: 15.6 }),
    ...fuelPressure({ at: at('09:05') }, { keyOn: 232, idle: 228, hold: 222 }, { low: 280, high: 320 }),
    ...sprayed('throttle body gasket', 'vacuum hose'),
    { at: at('09:50'), step: 'cap', place: 'vacuum hose', outcome: 'response' },
  ],
})
