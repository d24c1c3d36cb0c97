import { describe, expect, test } from 'vitest'
import { BARE_HEX, decodeRows, newBatch, plainNumber, type RowPlan } from '../../src/capture/decode-rows.ts'
import { randoms } from './randoms.ts'

/** Numbers tried in the property test. */
const NUMBERS = 1_000_000
const PER_FILE = 20_000

const plan: RowPlan = {
  separator: 44,
  decimal: 46,
  lineEnd: 10,
  columns: 1,
  wanted: Uint8Array.of(1),
  width: 1,
}

/** A number as some recorder would print it: fixed, trimmed, exponential, long, with and without sign. */
function written(random: () => number): string {
  const digits = (count: number) => Array.from({ length: count }, () => Math.floor(random() * 10)).join('')
  const sign = ['', '', '-', '+'][Math.floor(random() * 4)]!
  const whole = digits(Math.floor(random() * 9))
  const part = digits(Math.floor(random() * 11))
  const mantissa =
    whole === '' && part === ''
      ? '0'
      : part === ''
        ? `${whole}${random() < 0.2 ? '.' : ''}`
        : `${whole}.${part}`
  if (random() < 0.6) return sign + mantissa
  const exponent = Math.floor(random() * 50) - 25
  return `${sign}${mantissa}${random() < 0.5 ? 'e' : 'E'}${exponent < 0 ? '-' : random() < 0.5 ? '+' : ''}${String(Math.abs(exponent)).padStart(random() < 0.5 ? 2 : 1, '0')}`
}

/** Bits of a double, so that -0 is not 0. */
const bits = (value: number): bigint => new BigUint64Array(Float64Array.of(value).buffer)[0]!

/** What the byte decoder makes of each text; undefined where it hands the row on to be read as text. */
function decoded(texts: readonly string[]): (number | undefined)[] {
  const bytes = Buffer.from(texts.join('\n') + '\n')
  const batch = newBatch(texts.length, 1)
  const found: (number | undefined)[] = []
  for (let at = 0; at < bytes.length;) {
    batch.rows = 0
    at = decodeRows(bytes, { from: at, to: bytes.length }, plan, batch)
    found.push(...batch.values.subarray(0, batch.rows))
    if (at >= bytes.length) break
    found.push(undefined)
    at = bytes.indexOf(10, at) + 1
  }
  return found
}

describe('the byte decoder', () => {
  test('gives bit for bit what Number() gives, or declines', () => {
    const random = randoms(20260304)
    let declined = 0
    for (let done = 0; done < NUMBERS; done += PER_FILE) {
      const texts = Array.from({ length: PER_FILE }, () => written(random))
      const values = decoded(texts)
      expect(values.length).toBe(texts.length)
      texts.forEach((text, i) => {
        const value = values[i]
        if (value === undefined) declined++
        else if (bits(value) !== bits(Number(text))) throw new Error(`${text} was read as ${value}`)
      })
    }
    // Long mantissas and large exponents are handed on; the plain majority must not be.
    expect(declined / NUMBERS).toBeGreaterThan(0.01)
    expect(declined / NUMBERS).toBeLessThan(0.3)
  }, 60_000)

  test.each([
    ['0', 0],
    ['-0', -0],
    ['-0.0', -0],
    ['5.', 5],
    ['.5', 0.5],
    ['-.5', -0.5],
    ['+1', 1],
    ['007', 7],
    ['999999999', 999999999],
    ['0.000000001', 1e-9],
    ['123456789.25', 123456789.25],
    ['9007199254740991', 2 ** 53 - 1],
    ['1e22', 1e22],
    ['1E-22', 1e-22],
    ['0.1', 0.1],
    ['0.3', 0.3],
    ['4.35', 4.35],
    ['2.675', 2.675],
    ['8.41E+21', 8.41e21],
    ['5e-3', 5e-3],
    ['1.234E-0003', 1.234e-3],
    ['0x10', 16],
    ['"1"', 1],
    ['"-0.5"', -0.5],
    ['0X0fFf', 4095],
    ['0xFFFFFFFF', 2 ** 32 - 1],
  ])('reads %s', (text, value) => expect(bits(decoded([text])[0]!)).toBe(bits(value)))

  test.each([
    '',
    ' ',
    '-',
    '+',
    '.',
    'e5',
    '1e',
    '1e+',
    '--1',
    '1.2.3',
    '1,2',
    '0x',
    '-0x10',
    '00x1',
    '0x1G',
    '0x123456789',
    'Inf',
    'NaN',
    '"1',
    '"1"2',
    '""1""',
    '1 2',
    '1e99999',
    '9007199254740992',
    '9007199254740993',
    '1.7976931348623157e+22',
    '1e23',
    '1e-23',
    '9.9E37',
    '12\0',
  ])('hands on %j', (text) => {
    expect(decoded([text, '7'])).toEqual([undefined, 7])
  })

  test('says where a figure ends and what its last digit is worth', () => {
    const passed = new Float64Array(2)
    const bytes = Buffer.from('x-12.50e-3;')
    expect(plainNumber(bytes, { start: 1, decimal: 46 }, passed)).toBe(10)
    expect([...passed]).toEqual([-0.0125, -5])
  })

  test('stops at a row it cannot read and leaves what came before', () => {
    const bytes = Buffer.from('1,2\n3,4\n5,"6\n7,8\n')
    const batch = newBatch(10, 2)
    const two: RowPlan = { ...plan, columns: 2, wanted: Uint8Array.of(1, 1), width: 2 }
    expect(decodeRows(bytes, { from: 0, to: bytes.length }, two, batch)).toBe(8)
    expect([batch.rows, batch.line, ...batch.values.subarray(0, 4)]).toEqual([2, 3, 1, 2, 3, 4])
  })

  test('reads counts in hex without a mark where the column is one of them', () => {
    const bytes = Buffer.from('0.5,07FA\n1.5, 07e5\n2.5,0805 \n3.5,07G1\n')
    const batch = newBatch(10, 2)
    const two: RowPlan = { ...plan, columns: 2, wanted: Uint8Array.of(1, BARE_HEX), width: 2 }
    expect(decodeRows(bytes, { from: 0, to: bytes.length }, two, batch)).toBe(bytes.length - 9)
    expect([...batch.values.subarray(0, 6)]).toEqual([0.5, 0x7fa, 1.5, 0x7e5, 2.5, 0x805])
  })

  test('stops when the batch is full', () => {
    const bytes = Buffer.from('1\n2\n3\n')
    const batch = newBatch(2, 1)
    expect(decodeRows(bytes, { from: 0, to: bytes.length }, plan, batch)).toBe(4)
    expect(batch.rows).toBe(2)
  })
})
