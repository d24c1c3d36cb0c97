import { gzipSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { readCapture } from '../../src/capture/read-capture.ts'
import { JobError } from '../../src/problems/problem.ts'
import { captureEntry, scratch } from './as-file.ts'

/** No damaged small file may take longer, processor time. */
const LONGEST_MS = 2000
const cpuMs = (): number => process.cpuUsage().user / 1000

const file = scratch()
const body = (separator: string, decimal: string): string =>
  Array.from({ length: 30 }, (_, i) =>
    `${(i * 0.002).toFixed(3)}${separator}${(Math.sin(i) * 12).toFixed(3)}\n`.replaceAll('.', decimal),
  ).join('')
const comma = Buffer.from(`demo recorder\nrate,500\n\ntime,kv\ns,kV\n${body(',', '.')}`)
const KINDS: readonly [string, Buffer][] = [
  ['commas', comma],
  ['semicolons and decimal commas', Buffer.from(`time;kv\r\n${body(';', ',').replaceAll('\n', '\r\n')}`)],
  ['quotes', Buffer.from(`"time","kv"\n${body(',', '.').replace(/[^,\n]+/g, '"$&"')}`)],
  ['UTF-16', Buffer.from(`\ufefftime\tkv\n${body('\t', '.')}`, 'utf16le')],
  ['gzip', gzipSync(comma)],
]
const entry = captureEntry({ over_range: ['Inf', '-Inf'] })

/** Reads a file; anything but a reading of finite figures or a coded problem is a failure. */
async function survives(path: string): Promise<'read' | 'refused'> {
  const start = cpuMs()
  try {
    const read = await readCapture(path, entry)
    expect(read.channels[0]!.data.every(Number.isFinite)).toBe(true)
    expect(read.rows).toBe(read.channels[0]!.data.length)
    expect(read.sampleS).toBeGreaterThan(0)
    return 'read'
  } catch (error) {
    if (!(error instanceof JobError)) throw error
    expect(error.problems.length).toBeGreaterThan(0)
    return 'refused'
  } finally {
    expect(cpuMs() - start).toBeLessThan(LONGEST_MS)
  }
}

test.each(KINDS)('every prefix ends in a reading or a coded problem: %s', async (name, bytes) => {
  for (let length = 0; length < bytes.length; length += 7)
    await survives(file(`prefix-${name}`, bytes.subarray(0, length)))
})

test('a prefix never gives a figure that the whole does not hold', async () => {
  const whole = await readCapture(file('whole.csv', comma), entry)
  for (let length = 60; length < comma.length; length += 2) {
    const path = file('prefix.csv', comma.subarray(0, length))
    const read = await readCapture(path, entry).catch((error: unknown) => {
      if (error instanceof JobError) return undefined
      throw error
    })
    if (!read) continue
    expect([...read.channels[0]!.data]).toEqual([...whole.channels[0]!.data.subarray(0, read.rows)])
    expect(Math.abs(read.sampleS / whole.sampleS - 1)).toBeLessThan(1e-9)
  }
})

test.each([
  ['blanks', ' '.repeat(900_000)],
  ['blanks and a sign', `${' '.repeat(900_000)}x`],
])('a last row without end, of %s', async (_, text) => {
  expect(['read', 'refused']).toContain(
    await survives(file('blanks.csv', Buffer.concat([comma, Buffer.from(text)]))),
  )
})
