import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { gunzipSync, gzipSync } from 'node:zlib'
import type { Capture } from '../../../src/capture/capture.ts'
import { readCapture } from '../../../src/capture/read-capture.ts'
import { captureSchema, type CaptureEntry } from '../../../src/job/schema.ts'
import type { Problem } from '../../../src/problems/problem.ts'
import { Finding } from './outcome.ts'
import type { FuzzSeed, MutatedReader } from './reader.ts'
import { CAPTURE_PIECES } from './mutate.ts'
import { slowFigure, slowRows, type SlowRow } from './slow-reader.ts'

/** The capture every seed spells: 30 rows, an even clock, one secondary. */
const ENTRY: CaptureEntry = captureSchema.parse({
  file: 'captures/fuzz.csv',
  stage: 'before',
  condition: 'idle',
  engine: 'warm',
  taken: '2026-03-04T09:12:00Z',
  time: { column: 'time', unit: 's' },
  channels: [{ column: 'kv', carries: 'secondary', cylinders: 'all', unit: 'kV' }],
  over_range: ['Inf', '-Inf'],
})
const ROWS = 30

const body = (separator: string, decimal: string): string =>
  Array.from({ length: ROWS }, (_, i) =>
    `${(i * 0.002).toFixed(3)}${separator}${(Math.sin(i) * 12).toFixed(3)}\n`.replaceAll('.', decimal),
  ).join('')
const comma = Buffer.from(`demo recorder\nrate,500\n\ntime,kv\ns,kV\n${body(',', '.')}`)

export const TEXT_SEEDS: readonly FuzzSeed[] = [
  { name: 'commas', bytes: comma },
  {
    name: 'semicolons and decimal commas',
    bytes: Buffer.from(`time;kv\r\n${body(';', ',').replaceAll('\n', '\r\n')}`),
  },
  { name: 'quotes', bytes: Buffer.from(`"time","kv"\n${body(',', '.').replace(/[^,\n]+/g, '"$&"')}`) },
  { name: 'tabs, UTF-16', bytes: Buffer.from(`\ufefftime\tkv\n${body('\t', '.')}`, 'utf16le') },
  {
    name: 'blanks, exponents',
    bytes: Buffer.from(
      `time kv\n${Array.from(
        { length: ROWS },
        (_, i) => `${(i * 0.002).toExponential(4)} ${(Math.cos(i) * 12).toExponential(5)}\n`,
      ).join('')}`,
    ),
  },
  {
    name: 'thousands marks',
    bytes: Buffer.from(
      `time;kv\n${Array.from({ length: ROWS }, (_, i) => `0,${String(i * 2).padStart(3, '0')};${i % 9}.${100 + i},5\n`).join('')}`,
    ),
  },
  {
    name: 'a word for clipped samples, remarks',
    bytes: Buffer.from(`# invented\n${comma.toString('utf8').replace('7.8', 'Inf\n# 7.8')}`),
  },
]

/** Captures as plain text. */
export const captureReader = (folder: string): MutatedReader => ({
  name: 'capture',
  seeds: TEXT_SEEDS,
  pieces: CAPTURE_PIECES,
  read: (bytes) => readAndCompare(join(folder, 'fuzz.csv'), bytes, () => bytes),
})

/** Captures packed with gzip; some seeds are damaged inside the pack, some outside. */
export const gzipReader = (folder: string): MutatedReader => ({
  name: 'gzip',
  pieces: ['\x1f\x8b\x08', '\0', '\xff', '\0\0\0\0'],
  seeds: [
    ...TEXT_SEEDS.map(({ name, bytes }) => ({ name, bytes: gzipSync(bytes) })),
    { name: 'stored, not packed', bytes: gzipSync(comma, { level: 0 }) },
    {
      name: 'two members',
      bytes: Buffer.concat([gzipSync(comma.subarray(0, 100)), gzipSync(comma.subarray(100))]),
    },
  ],
  read: (bytes) => readAndCompare(join(folder, 'fuzz.csv.gz'), bytes, () => unpacked(bytes)),
})

/** Unpacked by the platform in one go. @throws Finding where it does not unpack, though it was read */
function unpacked(bytes: Buffer): Buffer {
  if (!(bytes[0] === 0x1f && bytes[1] === 0x8b)) return bytes
  try {
    return gunzipSync(bytes)
  } catch (cause) {
    throw new Finding('read, though it does not unpack', { cause })
  }
}

async function readAndCompare(
  path: string,
  bytes: Buffer,
  textBytes: () => Buffer,
): Promise<readonly Problem[]> {
  writeFileSync(path, bytes)
  const read = await readCapture(path, ENTRY)
  compareCapture(read, textBytes())
  return read.warnings
}

/** Every figure and every stamp of a reading against the slow reader. @throws Finding at the first that differs */
export function compareCapture(read: Capture, text: Uint8Array): void {
  if (!(read.sampleS > 0 && Number.isFinite(read.sampleS) && Number.isFinite(read.startS)))
    throw new Finding(`clock ${read.startS} ${read.sampleS}`)
  const rows = slowRows(text, read.dialect)
  const used = rows.filter(({ cells }) => fits(cells, read))
  const leftOut = rows.length - read.rows
  const flagged = read.warnings.some((w) =>
    ['row-cut-off', 'ragged-row', 'rows-without-figures'].includes(w.code),
  )
  if (leftOut < 0 || used.length < read.rows)
    throw new Finding(`${read.rows} rows read, the text holds ${used.length}`)
  if (leftOut > 0 && !flagged) throw new Finding(`${leftOut} rows left out without a word`)
  read.channels.forEach((channel, c) => {
    if (channel.data.length !== read.rows)
      throw new Finding(`channel ${c} holds ${channel.data.length} of ${read.rows} rows`)
    for (let i = 0; i < read.rows; i++) compareFigure(read, { channel: c, row: i, cells: used[i]!.cells })
  })
  compareClock(read, used)
}

const fits = (cells: readonly string[], { dialect: { columns } }: Capture): boolean =>
  cells.length >= columns &&
  cells.slice(columns).every((cell) => cell === '') &&
  cells.some((cell) => cell !== '')

function compareFigure(read: Capture, at: { channel: number; row: number; cells: readonly string[] }): void {
  const channel = read.channels[at.channel]!
  const cell = at.cells[columnOf(read, channel.entry.column)] ?? ''
  const stored = channel.data[at.row]!
  if (!Number.isFinite(stored)) throw new Finding(`row ${at.row} holds ${stored}`)
  if (ENTRY.over_range!.includes(cell)) return
  const figure = slowFigure(cell, read.dialect)
  if (figure === undefined || !Object.is(Math.fround(figure), stored))
    throw new Finding(`row ${at.row}: “${cell}” was read as ${stored}`)
}

const columnOf = ({ dialect }: Capture, column: string | number): number => {
  if (typeof column === 'number') return column - 1
  return (dialect.header ?? []).findIndex((name) => name.replace(/\s*[([].*$/, '').trim() === column)
}

/** Stamps further from the clock than its rules allow (a tenth of a sample, or the last digit written) have to be told of. */
function compareClock(read: Capture, rows: readonly SlowRow[]): void {
  const index = columnOf(read, 'time')
  const told = read.warnings.some((w) => w.code.startsWith('time-'))
  if (index < 0 || told || (read.jumps?.length ?? 0) > 0) return
  for (let i = 0; i < read.rows; i++) {
    const stamp = slowFigure(rows[i]!.cells[index] ?? '', read.dialect)
    if (stamp === undefined) return // a time of day: told apart by the dialect's own tests
    const decimals = (rows[i]!.cells[index]!.split(read.dialect.decimal)[1] ?? '').replace(
      /[eE].*/,
      '',
    ).length
    const digit = /[eE]/.test(rows[i]!.cells[index]!) ? 0.1 * read.sampleS : 10 ** -decimals
    const off = Math.abs(stamp - read.startS - i * read.sampleS)
    if (off > 0.5 * read.sampleS + 1.1 * digit)
      throw new Finding(`row ${i}: stamp ${stamp} is ${off} s off the clock`)
  }
}
