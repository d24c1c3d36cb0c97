import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Recording } from '../../../src/capture/capture.ts'
import { readCapture, readRecording } from '../../../src/capture/read-capture.ts'
import { captureSchema, traceSchema } from '../../../src/job/schema.ts'
import { makeRandom, type Random } from '../../../src/maths/random.ts'
import type { Problem } from '../../../src/problems/problem.ts'
import { Finding } from './outcome.ts'
import type { FuzzInput, FuzzReader } from './reader.ts'
import { spelled, type ColumnTruth, type Spelled, type TableTruth } from './spellings.ts'

/** Single precision holds seven digits; a unit's factor rounds once more. */
const SAME = 2e-7
/** A stamp may be off by this share of a step: the last digit written. */
const CLOCK = 1e-3

const range = (rows: number, of: (i: number) => number): number[] =>
  Array.from({ length: rows }, (_, i) => of(i))
const draw = makeRandom(9)
/** Long enough for the longest table; figures of a secondary in V, of a sync in mV. */
const KV = range(4000, (i) => Math.round(Math.sin(i) * 9000) + (i % 97 === 0 ? 12_000 : 0) + draw.integer(9))
const SYNC = range(4000, (i) => (i % 50 < 4 ? 4875 : 125) + draw.integer(9))
const RPM = range(4000, (i) => 780 + ((i * 7) % 50) + draw.integer(9))

/** Stamps 2 ms apart, in ms. */
const time = (rows: number): ColumnTruth => ({
  role: 'time',
  names: ['time', 'Zeit', 'temps', 'tiempo', 't'],
  units: [
    { unit: 's', digits: 3 },
    { unit: 'ms', digits: 0 },
    { unit: 'us', digits: -3 },
  ],
  wholes: range(rows, (i) => 2 * i),
})
const kv = (rows: number): ColumnTruth => ({
  role: 'kv',
  names: ['kv', 'Spannung', 'tension secondaire', 'Zündspannung', 'canal A'],
  units: [
    { unit: 'kV', digits: 3 },
    { unit: 'V', digits: 0 },
    { unit: 'mV', digits: -3 },
  ],
  wholes: KV.slice(0, rows),
})
const sync = (rows: number): ColumnTruth => ({
  role: 'sync',
  names: ['sync', 'Geber', 'señal', 'CH2'],
  units: [
    { unit: 'V', digits: 3 },
    { unit: 'mV', digits: 0 },
  ],
  wholes: SYNC.slice(0, rows),
})
const rpm = (rows: number): ColumnTruth => ({
  role: 'rpm',
  names: ['rpm', 'Drehzahl', 'régime', 'revoluciones'],
  units: [{ unit: 'rpm', digits: 0 }],
  wholes: RPM.slice(0, rows),
})

/** Mostly short; one in thirty longer than the head a dialect is found in. */
const rowsOf = (random: Random): number =>
  random.integer(30) === 0 ? 2500 + random.integer(1500) : 12 + random.integer(40)

/** One capture in every way it can be written: the same figures, or a code. */
export const spelledCaptureReader = (folder: string): FuzzReader => ({
  name: 'spelled-capture',
  draw: (random) => {
    const rows = rowsOf(random)
    const truth = { rows, columns: [time(rows), kv(rows), sync(rows)] }
    return input(truth, random, async (file) => {
      const { columns } = file
      const entry = captureSchema.parse({
        file: 'captures/fuzz.csv',
        stage: 'before',
        condition: 'idle',
        engine: 'warm',
        taken: '2026-03-04T09:12:00Z',
        time: columns['time'],
        channels: [
          { ...columns['kv'], carries: 'secondary', cylinders: 'all' },
          { ...columns['sync'], carries: 'sync', cylinder: 1 },
        ],
      })
      const path = join(folder, 'fuzz.csv')
      writeFileSync(path, file.bytes)
      return told(await readCapture(path, entry), {
        rows,
        channels: [KV.map((v) => v / 1000), SYNC.map((v) => v / 1000)],
      })
    })
  },
})

/** One slow trace in every way it can be written. */
export const spelledTraceReader = (folder: string): FuzzReader => ({
  name: 'spelled-trace',
  draw: (random) => {
    const rows = rowsOf(random)
    return input({ rows, columns: [time(rows), rpm(rows)] }, random, async (file) => {
      const entry = traceSchema.parse({
        file: 'traces/fuzz.csv',
        time: file.columns['time'],
        channels: [{ ...file.columns['rpm'], carries: 'speed' }],
      })
      const path = join(folder, 'fuzz.csv')
      writeFileSync(path, file.bytes)
      return told(await readRecording(path, entry), { rows, channels: [RPM] })
    })
  },
})

function input(
  truth: TableTruth,
  random: Random,
  read: (file: Spelled) => Promise<readonly Problem[]>,
): FuzzInput {
  const file = spelled(truth, random)
  return { seed: file.how, bytes: file.bytes, read: () => read(file) }
}

/** Problems that name rows left out, and how many each stands for. */
const LEFT_OUT: Readonly<Record<string, (args: Readonly<Record<string, unknown>>) => number>> = {
  'row-cut-off': () => 1,
  'ragged-row': ({ count }) => Number(count),
  'rows-without-figures': ({ count }) => Number(count),
  'rows-above': ({ count }) => Number(count),
}

/**
 * Holds a reading against the truth: every row that was read is one of the truth's, in its order and at its time, and
 * those that were not are told of, with their line, and counted.
 * @throws Finding
 */
export function told(
  read: Recording,
  truth: { rows: number; channels: readonly (readonly number[])[] },
): readonly Problem[] {
  const left = truth.rows - read.rows
  const named = read.warnings
    .flatMap((w) => {
      const count = LEFT_OUT[w.code]?.(w.args as Readonly<Record<string, unknown>>) ?? 0
      if (count > 0 && w.line === undefined) throw new Finding(`${w.code} names no line`)
      return [count]
    })
    .reduce((sum, n) => sum + n, 0)
  if (left < 0) throw new Finding(`${read.rows} rows read of ${truth.rows}`)
  if (left > named) throw new Finding(`${left} rows left out, ${named} told of`)
  const first = offsetOf(read, truth)
  if (read.channels.length !== truth.channels.length) throw new Finding(`${read.channels.length} channels`)
  for (let i = 0; i < read.rows; i++) {
    read.channels.forEach(({ data }, c) => {
      const right = truth.channels[c]![first + i]!
      if (!isSame(data[i]!, right))
        throw new Finding(`row ${i}, channel ${c}: ${right} was read as ${data[i]}`)
    })
    const atS = read.timesS?.[i] ?? read.startS + i * read.sampleS
    const off = atS - read.startS - 0.002 * i
    if (!(Math.abs(off) <= 0.002 * CLOCK * Math.max(1, i)))
      throw new Finding(`row ${i}: ${off} s off the clock`)
  }
  return read.warnings
}

/** Rows of the truth before the first that was read: where the first few agree in every channel. */
function offsetOf(
  read: Recording,
  truth: { rows: number; channels: readonly (readonly number[])[] },
): number {
  const agrees = (first: number): boolean =>
    read.channels.every(({ data }, c) =>
      data.subarray(0, 6).every((value, i) => isSame(value, truth.channels[c]![first + i]!)),
    )
  for (let first = 0; first <= truth.rows - read.rows; first++) if (agrees(first)) return first
  return 0
}

const isSame = (value: number, right: number): boolean =>
  Math.abs(value - right) <= SAME * Math.max(1e-6, Math.abs(right))
