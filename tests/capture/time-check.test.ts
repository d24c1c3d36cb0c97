import { describe, expect, test } from 'vitest'
import { readCapture } from '../../src/capture/read-capture.ts'
import { captureEntry, places, problemsOf, scratch } from './as-file.ts'

const file = scratch()
const entry = captureEntry()
/** A capture whose stamps are printed by `print`; one figure beside each. */
const withStamps = (name: string, rows: number, print: (i: number) => string): string =>
  file(`${name}.csv`, `time,kv\n${Array.from({ length: rows }, (_, i) => `${print(i)},${i % 7}\n`).join('')}`)

/** Six significant digits, zeros trimmed, as the %g of C prints (common practice, no source). */
const sixDigits = (value: number): string => String(Number(value.toPrecision(6)))

describe('stamps that differ from an even clock by rounding alone are even', () => {
  test.each([
    ['a step finer than the last digit', 20_000, 0.4e-6, (t: number) => t.toFixed(6)],
    ['a step that is no multiple of the last digit', 20_000, 1.6e-6, (t: number) => t.toFixed(6)],
    ['a step just off the last digit', 60_000, 1.0001e-6, (t: number) => t.toFixed(6)],
    ['a last digit that grows with the stamp', 60_000, 3e-6, sixDigits],
    ['a last digit that comes to exceed the step', 60_000, 3e-5, sixDigits],
    ['single precision counted on', 60_000, 1e-4, (t: number) => Math.fround(t).toFixed(9)],
    ['exponents of four digits', 3000, 1e-3, (t: number) => t.toExponential(3)],
    ['negative times first', 20_000, 2e-6, (t: number) => (t - 0.02).toFixed(6)],
    ['full doubles', 20_000, 1 / 3e5, (t: number) => String(t)],
    ['seconds since long ago', 20_000, 1e-3, (t: number) => (1.7e9 + t).toFixed(3)],
  ] as const)('%s', async (name, rows, step, print) => {
    const read = await readCapture(
      withStamps(name.replaceAll(' ', '-'), rows, (i) => print(i * step)),
      entry,
    )
    expect(read.warnings).toEqual([])
    expect(Math.abs(read.sampleS / step - 1)).toBeLessThan(2 / rows + 2 * 10 ** -4)
    expect(read.jumps).toEqual([])
  })
})

describe('a single dropped row is found', () => {
  test.each([
    ['at the first rows', 10, 1e-6, 6],
    ['later', 30_000, 1e-6, 6],
    ['where the step is two last digits', 30_000, 2e-6, 6],
    ['where stamps are fine', 30_000, 1e-6, 9],
  ] as const)('%s', async (name, at, step, decimals) => {
    const stamps = withStamps(`drop-${name.replaceAll(' ', '-')}`, 40_000, (i) =>
      ((i + (i >= at ? 1 : 0)) * step).toFixed(decimals),
    )
    const read = await readCapture(stamps, entry)
    expect(places(read.warnings)).toEqual([`time-gap:${at + 2}:1`])
    expect(read.jumps).toEqual([{ row: at, extraS: expect.closeTo(step, 12) }])
    expect(read.sampleS).toBeCloseTo(step, 14)
  })
})

test('a rate that changes on the way is refused', async () => {
  const stamps = withStamps('rate', 40_000, (i) =>
    (i < 20_000 ? i * 1e-6 : 20_000e-6 + (i - 20_000) * 1.05e-6).toFixed(9),
  )
  expect(places(await problemsOf(readCapture(stamps, entry)))).toEqual(['time-uneven:-:1'])
})

test('a step back late in the file is found', async () => {
  const stamps = withStamps('back', 30_000, (i) => ((i === 25_000 ? 24_000 : i) * 1e-6).toFixed(6))
  expect(places(await problemsOf(readCapture(stamps, entry)))).toEqual(['time-backwards:25002:1'])
})
