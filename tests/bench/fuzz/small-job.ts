import { captureText } from '../../../src/demo/capture-file.ts'
import { plainStyle } from '../../../src/demo/scenario.ts'
import { distributorCapture } from '../../../src/model/capture-parameters.ts'
import { GOOD_RECORDER } from '../../../src/model/recorder.ts'
import { simulateCapture, type SimulatedCapture } from '../../../src/model/simulate-capture.ts'

/** Slow for a recorder, so that the file is small enough to be cut at every byte. */
const SAMPLE_HZ = 50_000

const JOB = `format: 1
work_order: "S-1"
opened: 2026-03-04
shop: { name: Invented Garage }
technician: { name: A. Invented }
vehicle: { make: Invented, model: Two }
engine: { cylinders: 2, firing_order: [1, 2], ignition: distributor, fuel: E5 }
complaint: invented
instrument: { voltage_uncertainty_percent: 5 }
captures:
  - file: captures/idle.csv
    stage: before
    condition: idle
    engine: warm
    taken: 2026-03-04T09:12:00Z
    time: { sample_rate_hz: ${SAMPLE_HZ} }
    channels:
      - { column: secondary_kv, carries: secondary, cylinders: all, unit: kV }
      - { column: sync_v, carries: sync, cylinder: 1, unit: V }
`

const LOG = `at,step,place,condition,reading,value,unit,outcome
2026-03-04T09:20,trim,,idle,STFT1,9.4,%,
2026-03-04T09:20,trim,,idle,LTFT1,12.5,%,
2026-03-04T09:30,spray,intake joint,idle,propane,,,response
`

const smallCapture = (): SimulatedCapture => {
  const parameters = distributorCapture({ cylinders: 2, seed: 11, durationS: 0.09, rpm: 3000 })
  return simulateCapture({ ...parameters, recorder: { ...GOOD_RECORDER, sampleHz: SAMPLE_HZ } })
}

/** The small job's capture with a time column, for readers that know no rate. */
export const stampedCapture = (): Buffer =>
  Buffer.from(
    captureText(smallCapture(), {
      ...plainStyle('a', 'sync'),
      time: { name: 'time_us', unit: 'us', perS: 1e6, decimals: 0 },
    }),
  )

/** Every file of a job so small that each can be cut at every byte: two cylinders, two cycles. */
export function smallJob(): Map<string, Buffer> {
  return new Map([
    ['job.yaml', Buffer.from(JOB)],
    ['test-log.csv', Buffer.from(LOG)],
    ['captures/idle.csv', Buffer.from(captureText(smallCapture(), plainStyle('secondary_kv', 'sync_v')))],
  ])
}
