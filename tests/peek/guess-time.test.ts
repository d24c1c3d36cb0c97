import { describe, expect, test } from 'vitest'
import type { Dialect } from '../../src/capture/capture.ts'
import { guessTime, likelyUnit } from '../../src/peek/guess-time.ts'

const dialect = (
  header: readonly string[] | undefined,
  columns: number,
  unitsRow?: readonly string[],
): Dialect => ({
  encoding: 'utf-8',
  separator: ',',
  decimal: '.',
  thousands: '',
  decimalSeen: true,
  lineEnd: '\n',
  preambleLines: 0,
  header,
  unitsRow,
  headerLine: header ? 1 : undefined,
  mismatchedHeader: undefined,
  dataOffset: 0,
  dataLine: 2,
  columns,
  evidence: [],
})
const rows = (...columns: string[][]): string[][] => columns[0]!.map((_, i) => columns.map((c) => c[i]!))
const even = ['0.000', '0.002', '0.004', '0.006']
const noise = ['1.2', '-0.4', '0.8', '1.1']

describe('which column tells the time', () => {
  test.each([
    [
      'a unit written in the header',
      dialect(['kv', 'x_us'], 2),
      rows(noise, even),
      { kind: 'column', index: 1, unit: 'us' },
    ],
    [
      'a unit in the units row',
      dialect(['a', 'b'], 2, ['ms', 'V']),
      rows(even, noise),
      { kind: 'column', index: 0, unit: 'ms' },
    ],
    [
      'a name without a unit',
      dialect(['Time', 'kv'], 2),
      rows(even, noise),
      { kind: 'column', index: 0, unit: undefined },
    ],
    [
      'no header: the column that rises',
      dialect(undefined, 2),
      rows(noise, even),
      { kind: 'column', index: 1, unit: undefined },
    ],
    [
      'a time of day',
      dialect(['when', 'kv'], 2),
      rows(['9:00:00.0', '9:00:00.1', '9:00:00.2', '9:00:00.3'], noise),
      { kind: 'column', index: 0, unit: 's' },
    ],
    [
      'sample numbers tell no time',
      dialect(['no', 'kv'], 2),
      rows(['1', '2', '3', '4'], noise),
      { kind: 'counter', index: 0 },
    ],
    [
      'whole microseconds do',
      dialect(['time_us', 'kv'], 2),
      rows(['1', '2', '3', '4'], noise),
      { kind: 'column', index: 0, unit: 'us' },
    ],
    ['nothing rises', dialect(['a', 'b'], 2), rows(noise, noise), { kind: 'none' }],
    [
      'a column that ends higher but falls between',
      dialect(['a'], 1),
      rows(['0', '3', '2', '5']),
      { kind: 'none' },
    ],
    ['too few rows', dialect(['time'], 1), rows(['0', '1']), { kind: 'none' }],
  ])('%s', (_, d, r, expected) => expect(guessTime(d, r)).toEqual(expected))
})

describe('the unit of a time column that states none', () => {
  test.each([
    ['2 us at 500 kS/s in seconds', 2e-6, 1e6, 's'],
    ['0.002 ms', 0.002, 1e6, 'ms'],
    ['2 us', 2, 1e6, 'us'],
    ['a slow trace of 20 Hz in seconds', 0.05, 1200, 's'],
    ['a slow trace of 50 Hz in seconds', 0.02, 3000, 's'],
  ] as const)('%s', (_, step, count, unit) => expect(likelyUnit(step, count)).toBe(unit))
})
