import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'

/** job.yaml as the guide shows it, every key in use, invented. */
export const EXAMPLE_JOB = `format: 1
work_order: "24-0713"
opened: 2026-03-04
closed: 2026-03-05
shop:     { name: Invented Garage, address: 1 Example Street, phone: "000 0000", email: desk@example.invalid, registration: demo }
technician: { name: A. Invented, certificate: demo-1 }
customer: { name: Invented Customer, contact: "000 0001", reference: demo }
vehicle:
  vin: 1M8GDM9AXKP042788
  plate: DEMO 1
  unit_number: "17"
  year: 2009
  make: Invented
  model: Six
  odometer: { value: 98123, unit: mi }
engine:
  cylinders: 6
  strokes: 4
  firing_order: [1, 5, 3, 6, 2, 4]
  ignition: wasted-spark
  pairs: [[1, 6], [2, 5], [3, 4]]
  banks: { 1: [1, 3, 5], 2: [2, 4, 6] }
  fuel: E10
  displacement_l: 3.0
complaint: "Stumbles at a warm idle, clears on the road"
cause: invented
correction: invented
instrument:
  description: invented recorder and pickup
  calibration: { date: 2025-11-02, due: 2026-11-02, certificate: demo-2 }
  voltage_uncertainty_percent: 5
  time_uncertainty_ppm: 100
captures:
  - file: captures/idle-before.csv
    stage: before
    condition: idle
    engine: warm
    taken: 2026-03-04T09:12:00-05:00
    time: { column: time_s, unit: s }
    channels:
      - { column: secondary_kv, carries: secondary, cylinders: all, unit: kV, polarity: auto }
      - { column: sync_v, carries: sync, cylinder: 1, unit: V }
    over_range: ["Inf", "-Inf"]
  - file: captures/pair-before.csv
    stage: before
    condition: 2500 rpm
    engine: warm
    taken: 2026-03-04T09:14:00-05:00
    time: { sample_rate_hz: 500000 }
    channels:
      - { column: 1, carries: secondary, cylinders: [1, 6], unit: V, scale: 1000, polarity: negative, limits: [-20, 20] }
      - { column: 2, carries: sync, cylinder: 1, unit: mV }
traces:
  - file: traces/spray-1.csv
    time: { column: time_s, unit: s }
    channels:
      - { column: rpm, carries: speed, unit: rpm }
photos:
  - { file: photos/joint.jpg, caption: invented, stage: before }
`

export const EXAMPLE_LOG = `at,step,place,stage,condition,reading,value,unit,expected_low,expected_high,trace,from_s,to_s,outcome,note,seen by
2026-03-04T09:20:00-05:00,trim,,,idle,STFT1,1.6,%,,,,,,,,A. Invented
2026-03-04T09:30:00-05:00,spray,intake joint,,idle,propane,,,,,traces/spray-1.csv,10,14,response,"first
second",
`

/** A JPEG's head alone, of one grey pixel (ITU-T T.81, B.2.2): start, frame, scan, end. */
const PHOTO = Uint8Array.of(
  0xff,
  0xd8,
  0xff,
  0xc0,
  0,
  11,
  8,
  0,
  1,
  0,
  1,
  1,
  1,
  0x11,
  0,
  0xff,
  0xda,
  0,
  2,
  0,
  0xff,
  0xd9,
)

/** Every file of the example folder, by name. */
export const EXAMPLE_FILES: Readonly<Record<string, string | Uint8Array>> = {
  'job.yaml': EXAMPLE_JOB,
  'test-log.csv': EXAMPLE_LOG,
  'captures/idle-before.csv': 'time_s,secondary_kv,sync_v\n0,0,0\n',
  'captures/pair-before.csv': '0,0\n',
  'traces/spray-1.csv': 'time_s,rpm\n0,800\n',
  'photos/joint.jpg': PHOTO,
}

/** Writes the example folder, with another log where one is given. */
export function exampleFolder(folder: string, log: string = EXAMPLE_LOG): void {
  for (const [file, text] of Object.entries({ ...EXAMPLE_FILES, 'test-log.csv': log })) {
    mkdirSync(dirname(join(folder, file)), { recursive: true })
    writeFileSync(join(folder, file), text)
  }
}
