import { readFileSync } from 'node:fs'
import { createHash } from 'node:crypto'
import { fileURLToPath } from 'node:url'
import { gunzipSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { parse } from 'yaml'
import { dialectOfFile } from '../../src/capture/find-dialect.ts'
import { readCapture } from '../../src/capture/read-capture.ts'
import { jobSchema } from '../../src/job/schema.ts'
import { captureEntry, scratch } from './as-file.ts'

const file = scratch()
const folder = fileURLToPath(new URL('../fixtures/captures/', import.meta.url))
const jobs = ['a-four-level', 'c-eight-cyl5-lean', 'e-four-wasted-leads']

/** A plain second reader: unpack, split, Number(). */
function slowly(bytes: Uint8Array, separator: string, column: string): number[] {
  const [header = '', ...rows] = gunzipSync(bytes).toString('utf8').trimEnd().split('\n')
  const at = header.trim().split(separator).indexOf(column)
  return rows.map((row) => Number(row.split(separator)[at]))
}

test.each(jobs)('reads the captures of %s as a plain second reader does', async (name) => {
  const job = jobSchema.parse(parse(readFileSync(`${folder}${name}/job.yaml`, 'utf8')))
  for (const entry of job.captures) {
    const path = `${folder}${name}/${entry.file}`
    const stored = readFileSync(path)
    const read = await readCapture(path, entry)
    expect(read.warnings).toEqual([])
    expect(read.sha256).toBe(createHash('sha256').update(stored).digest('hex'))
    expect(read.bytes).toBe(stored.length)
    for (const channel of read.channels) {
      const slow = Float32Array.from(slowly(stored, read.dialect.separator, String(channel.entry.column)))
      expect(Buffer.compare(Buffer.from(slow.buffer), Buffer.from(channel.data.slice().buffer))).toBe(0)
    }
    if ('column' in entry.time) {
      const times = slowly(stored, read.dialect.separator, String(entry.time.column))
      const unitS = entry.time.unit === 'us' ? 1e-6 : 1
      const worst = times.reduce(
        (most, t, i) => Math.max(most, Math.abs(t * unitS - read.startS - i * read.sampleS)),
        0,
      )
      // Stamps are written to 1 us, in one of the files cut off rather than rounded: off by up to one last digit.
      expect(worst).toBeLessThan(1.01e-6)
      expect(read.sampleS).toBeCloseTo(2e-6, 12)
    }
  }
})

test('units are brought to base units: kV of a secondary, V of the rest, A, Hz as it is', async () => {
  const text = 'a,b,c,d,e\n' + '2000,2,1500,250,30\n'.repeat(3)
  const channels = [
    { column: 'a', carries: 'secondary', cylinder: 1, cylinders: 1, unit: 'V', scale: 0.5 },
    { column: 'b', carries: 'primary-voltage', unit: 'kV' },
    { column: 'c', carries: 'sync', cylinder: 1, unit: 'mV' },
    { column: 'd', carries: 'primary-current', unit: 'mA' },
    { column: 'e', carries: 'speed', unit: 'Hz' },
  ]
  const read = await readCapture(
    file('units.csv', text),
    captureEntry({ time: { sample_rate_hz: 10 }, channels }),
  )
  expect(read.channels.map(({ unit, data }) => [data[0], unit])).toEqual([
    [1, 'kV'],
    [2000, 'V'],
    [1.5, 'V'],
    [0.25, 'A'],
    [30, 'Hz'],
  ])
  expect(read.sampleS).toBe(0.1)
})

test('one column may serve two channels', async () => {
  const channels = [
    { column: 'v', carries: 'secondary', cylinders: 'all', unit: 'V' },
    { column: 'v', carries: 'sync', cylinder: 1, unit: 'V' },
  ]
  const read = await readCapture(
    file('twice.csv', 'v\n1000\n2000\n3000\n'),
    captureEntry({ time: { sample_rate_hz: 10 }, channels }),
  )
  expect(read.channels.map(({ data }) => [...data])).toEqual([
    [1, 2, 3],
    [1000, 2000, 3000],
  ])
})

test("limits are in the file's figures; a negative scale turns them round", async () => {
  const channels = [
    { column: 'v', carries: 'secondary', cylinders: 'all', unit: 'V', scale: -1000, limits: [-1, 3] },
  ]
  const read = await readCapture(
    file('limits.csv', 'v\n1\n2\n3\n'),
    captureEntry({ time: { sample_rate_hz: 10 }, channels }),
  )
  expect(read.channels[0]).toMatchObject({ limits: [-3, 1], limitsFrom: 'declared', clippedSamples: 1 })
})

test('a dialect is found without a job, and no more than the head is read', async () => {
  const text = `Recorder demo\nTime (ms);Lead (kV)\n${Array.from({ length: 90_000 }, (_, i) => `${i};${String((i % 9) / 4).replace('.', ',')}\n`).join('')}`
  const { dialect, head } = await dialectOfFile(file('peek.csv', text), {
    file: 'peek.csv',
    names: [],
    words: [],
  })
  expect(dialect).toMatchObject({
    separator: ';',
    decimal: ',',
    header: ['Time (ms)', 'Lead (kV)'],
    dataLine: 3,
    preambleLines: 1,
  })
  expect(head.whole).toBe(false)
})
