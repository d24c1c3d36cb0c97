import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { stringify } from 'yaml'
import { captureText, type FileStyle } from '../../../src/demo/capture-file.ts'
import { distributorCapture, withCylinders } from '../../../src/model/capture-parameters.ts'
import { IDLE_GAP } from '../../../src/model/cylinder-state.ts'
import { GOOD_RECORDER } from '../../../src/model/recorder.ts'
import { simulateCapture } from '../../../src/model/simulate-capture.ts'

/** What a job to time is made of. The same numbers make the same bytes. */
export interface BenchJob {
  workOrder: string
  rows: number
  seed: number
}

const SAMPLE_HZ = 1_000_000
/** A fast idle: two cycles, and so two sync pulses, fall into the quarter second of the smallest job whatever its phase. */
const RPM = 1000
const STYLE: FileStyle = {
  separator: ',',
  decimal: '.',
  preamble: [],
  unitsRow: false,
  time: { name: 'time_s', unit: 's', perS: 1, decimals: 6 },
  columns: [
    { name: 'secondary_kv', unit: 'kV', perUnit: 1, decimals: 4 },
    { name: 'sync_v', unit: 'V', perUnit: 1, decimals: 3 },
  ],
}

const LOG = `at,step,place,stage,condition,reading,value,unit,expected_low,expected_high,trace,from_s,to_s,outcome,note
2026-03-04T09:20:00+00:00,trim,,before,idle,STFT1,11.7,%,-5,5,,,,,
2026-03-04T09:20:00+00:00,trim,,before,idle,LTFT1,14.1,%,-10,10,,,,,
2026-03-04T09:22:00+00:00,vacuum,,before,idle,manifold,51,kPa,57,74,,,,,
2026-03-04T09:30:00+00:00,spray,throttle gasket,before,idle,propane,,,,,traces/spray.csv,10,16,no response,
2026-03-04T09:30:00+00:00,spray,intake runner 2,before,idle,propane,,,,,traces/spray.csv,30,36,response,
2026-03-04T09:30:00+00:00,spray,brake booster hose,before,idle,propane,,,,,traces/spray.csv,50,55,no response,
`

/**
 * Writes a job of one capture at 1 MS/s, time column included, of an idling four-cylinder engine whose second cylinder
 * is lean, with a spray trace and a short log. All of it is simulated and invented.
 */
export function writeBenchJob(folder: string, job: BenchJob): void {
  mkdirSync(join(folder, 'captures'), { recursive: true })
  mkdirSync(join(folder, 'traces'), { recursive: true })
  writeFileSync(join(folder, 'captures', 'idle-before.csv'), captureOf(job))
  writeFileSync(join(folder, 'traces', 'spray.csv'), traceOf())
  writeFileSync(join(folder, 'test-log.csv'), LOG)
  writeFileSync(join(folder, 'job.yaml'), stringify(jobText(job.workOrder)))
}

function captureOf({ rows, seed }: BenchJob): Uint8Array {
  const healthy = distributorCapture({ cylinders: 4, seed, durationS: rows / SAMPLE_HZ, rpm: RPM })
  const lean = withCylinders(healthy, new Map([[2, { gap: IDLE_GAP, mixtureKv: 0.9 }]]))
  return captureText(simulateCapture({ ...lean, recorder: { ...GOOD_RECORDER, sampleHz: SAMPLE_HZ } }), STYLE)
}

/** A minute of an idle that swings by itself and answers the second spray. */
function traceOf(): string {
  const lines = Array.from({ length: 1200 }, (_, i) => {
    const s = i / 20
    const rise =
      s > 31 && s < 37 ? 130 * Math.min(1, (s - 31) / 1.5) : s >= 37 ? 130 * Math.exp((37 - s) / 2.5) : 0
    return `${s.toFixed(2)},${(750 + 12 * Math.sin(0.8 * Math.PI * s) + 4 * Math.sin(17.3 * s) + rise).toFixed(1)}`
  })
  return `time_s,rpm\n${lines.join('\n')}\n`
}

const jobText = (workOrder: string) => ({
  format: 1,
  work_order: workOrder,
  opened: '2026-03-04',
  shop: { name: 'Bench (invented)' },
  technician: { name: 'A. Invented' },
  customer: { name: 'B. Invented' },
  vehicle: { year: 2009, make: 'Invented', model: 'Bench', odometer: { value: 98123, unit: 'km' } },
  engine: { cylinders: 4, strokes: 4, firing_order: [1, 3, 4, 2], ignition: 'distributor', fuel: 'E10' },
  complaint: 'Idle hunts up and down, warm engine',
  instrument: { description: 'simulated, 1 MS/s', voltage_uncertainty_percent: 5 },
  captures: [
    {
      file: 'captures/idle-before.csv',
      stage: 'before',
      condition: 'idle',
      engine: 'warm',
      taken: '2026-03-04T09:12:00+00:00',
      time: { column: 'time_s', unit: 's' },
      channels: [
        { column: 'secondary_kv', carries: 'secondary', cylinders: 'all', unit: 'kV', polarity: 'auto' },
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
})
