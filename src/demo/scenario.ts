import { GOOD_RECORDER, type Recorder } from '../model/recorder.ts'
import type { FileStyle } from './capture-file.ts'
import type { JobText } from './demo-job.ts'

/** One invented shop in one invented week: every demo job is opened here. */
export const SHOP: JobText['shop'] = {
  name: 'Kettlebrook Demo Garage',
  address: '7 Example Yard, Demoville',
  phone: '000 555 0100',
  email: 'desk@kettlebrook.example',
  registration: 'invented for demonstration',
}
export const TECHNICIANS = {
  sample: { name: 'T. Sample', certificate: 'demo certificate 11' },
  specimen: { name: 'R. Specimen', certificate: 'demo certificate 12' },
} satisfies Record<string, JobText['technician']>

export const INSTRUMENT: NonNullable<JobText['instrument']> = {
  description: 'Two-channel workshop oscilloscope with capacitive secondary clamp (simulated)',
  calibration: { date: '2025-11-02', due: '2026-11-02', certificate: 'demo 4471' },
  voltage_uncertainty_percent: 5,
  time_uncertainty_ppm: 100,
}

/** The shop's scope: 10 bits over 16 kV either way, quiet. */
export const shopRecorder = (sampleHz: number): Recorder => ({
  ...GOOD_RECORDER,
  sampleHz,
  secondary: { ...GOOD_RECORDER.secondary, bits: 10, low: -16, high: 16, noiseRms: 0.009, offset: 0.002 },
  sync: { ...GOOD_RECORDER.sync, bits: 8, noiseRms: 0.012 },
})

/** Range of that scope in kV, as job.yaml states it: full scale is one step short. */
export const SHOP_LIMITS_KV: [number, number] = [-16, 15.969]

/** Plain comma-separated columns in kV and V; the rate stands in job.yaml. */
export const plainStyle = (...names: string[]): FileStyle => ({
  separator: ',',
  decimal: '.',
  preamble: [],
  unitsRow: false,
  time: undefined,
  columns: names.map((name) =>
    name.startsWith('sync')
      ? { name, unit: 'V', perUnit: 1, decimals: 2 }
      : { name, unit: 'kV', perUnit: 1, decimals: 3 },
  ),
})
