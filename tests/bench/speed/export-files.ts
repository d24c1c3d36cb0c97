import { closeSync, mkdirSync, openSync, writeFileSync, writeSync } from 'node:fs'
import { join } from 'node:path'
import { distributorCapture } from '../../../src/model/capture-parameters.ts'
import { simulateCapture } from '../../../src/model/simulate-capture.ts'

/** A way of writing long exports: its lines of job.yaml, and the text of one stretch of the recording. */
interface Way {
  time: string
  columns: readonly [string, string]
  unit?: string
  /** @param part  which stretch, from 0; rows and samples of it */
  write: (part: number, samples: Samples) => string
}

/** Two seconds of an idling engine of four, invented, as text of each level. */
interface Samples {
  kv: readonly string[]
  sync: readonly string[]
  kvHex: readonly string[]
  syncHex: readonly string[]
}

const RATE = 500_000
const SECONDS = 2
const KV_A_COUNT = 0.01
const V_A_COUNT = 0.005

const seconds = (row: number): string => (row / RATE).toFixed(6)
const table = (rows: number, row: (i: number) => string): string => {
  let text = ''
  for (let i = 0; i < rows; i++) text += row(i)
  return text
}

export const WAYS: Readonly<Record<'plain' | 'hex' | 'blocks' | 'jumps', Way>> = {
  plain: {
    time: '{ column: time_s, unit: s }',
    columns: ['kv', 'sync'],
    write: (part, { kv, sync }) =>
      (part === 0 ? 'time_s,kv,sync\n' : '') +
      table(kv.length, (i) => `${seconds(part * kv.length + i)},${kv[i]!},${sync[i]!}\n`),
  },
  hex: {
    time: `{ sample_rate_hz: ${RATE} }`,
    columns: ['kv', 'sync'],
    write: (part, { kvHex, syncHex }) =>
      (part === 0 ? 'kv,sync\n' : '') + table(kvHex.length, (i) => `${kvHex[i]!},${syncHex[i]!}\n`),
  },
  blocks: {
    time: '{ column: time_s, unit: s }',
    columns: ['kv', 'sync'],
    write: (part, { kv, sync }) =>
      `Segment ${part + 1}\ntime_s,kv,sync\n` +
      table(kv.length / 4, (i) => `${seconds(i)},${kv[i]!},${sync[i]!}\n`),
  },
  jumps: {
    time: '{ column: time_s, unit: s }',
    columns: ['kv', 'sync'],
    write: (part, { kv, sync }) =>
      (part === 0 ? 'time_s,kv,sync\n' : '') +
      table(kv.length / 4, (i) => `${seconds(part * kv.length + i)},${kv[i]!},${sync[i]!}\n`),
  },
}

function samples(): Samples {
  const { channels } = simulateCapture(
    distributorCapture({ cylinders: 4, seed: 5, durationS: SECONDS, rpm: 900 }),
  )
  const [kv, sync] = channels.map(({ data }) => data) as [Float64Array, Float64Array]
  const written = (data: Float64Array, write: (v: number) => string): string[] => {
    const known = new Map<number, string>()
    return Array.from(data, (value) => {
      const text = known.get(value) ?? write(value)
      known.set(value, text)
      return text
    })
  }
  const hex = (step: number) => (v: number) =>
    `0x${(2048 + Math.round(v / step)).toString(16).toUpperCase().padStart(4, '0')}`
  return {
    kv: written(kv, (v) => v.toFixed(4)),
    sync: written(sync, (v) => v.toFixed(3)),
    kvHex: written(kv, hex(KV_A_COUNT)),
    syncHex: written(sync, hex(V_A_COUNT)),
  }
}

/** A job whose one capture is written so, at least so many megabytes long. */
export function writeExportJob(folder: string, way: keyof typeof WAYS, megabytes: number): void {
  const { time, columns, write } = WAYS[way]
  const made = samples()
  mkdirSync(join(folder, 'captures'), { recursive: true })
  const file = openSync(join(folder, 'captures', 'long.csv'), 'w')
  for (let part = 0, bytes = 0; bytes < megabytes * 1e6; part++) bytes += writeSync(file, write(part, made))
  closeSync(file)
  const [kvScale, vScale] = way === 'hex' ? [`, scale: ${KV_A_COUNT}`, `, scale: ${V_A_COUNT}`] : ['', '']
  writeFileSync(join(folder, 'test-log.csv'), 'at,step\n')
  writeFileSync(
    join(folder, 'job.yaml'),
    `format: 1
work_order: "X-${way}"
opened: 2026-03-04
shop: { name: Bench (invented) }
technician: { name: A. Invented }
vehicle: { year: 2009, make: Invented, model: Bench }
engine: { cylinders: 4, firing_order: [1, 3, 4, 2], ignition: distributor, fuel: E10 }
complaint: none
captures:
  - file: captures/long.csv
    stage: before
    condition: idle
    engine: warm
    taken: 2026-03-04T09:12:00Z
    time: ${time}
    channels:
      - { column: ${columns[0]}, carries: secondary, cylinders: all, unit: kV${kvScale} }
      - { column: ${columns[1]}, carries: sync, cylinder: 1, unit: V${vScale} }
`,
  )
}
