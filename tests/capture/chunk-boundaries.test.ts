import { expect, test } from 'vitest'
import { Collector } from '../../src/capture/collect.ts'
import { recognise } from '../../src/capture/dialect.ts'
import { OddRows } from '../../src/capture/odd-row.ts'
import { ProblemLog } from '../../src/capture/problem-log.ts'
import { RowDecoder } from '../../src/capture/row-decoder.ts'
import { findEncoding } from '../../src/capture/encoding.ts'

/** Rows of every kind the two readers share out between them. */
const LINES = [
  '0.000,-1.5',
  '0.001,2.25',
  '"0.002","3"',
  '',
  '# remark',
  '0.003,1e3',
  '0.004, 7 ',
  '0.005,Inf',
  '0.006,"1,234.5"',
  '0.007,12345678901234567890',
  '0.008,-0',
  '0.009,4,',
  '0.010,5',
]
const TRUTH = [-1.5, 2.25, 3, 1000, 7, Infinity, 1234.5, 12345678901234567890, -0, 4, 5].map(Math.fround)

/** Decodes bytes pushed in the pieces given. */
function decodePieces(pieces: readonly Uint8Array[]): { data: number[]; step: number; lines: number } {
  const bytes = Buffer.concat(pieces)
  const about = { file: 'x.csv', names: [], words: ['Inf', '-Inf'] }
  const head = {
    bytes: Buffer.from(`${LINES.slice(0, 2).join('\n')}\n`),
    whole: true,
    encoding: findEncoding(bytes),
  }
  const found = recognise(head, about)
  if (!found.ok) throw new Error('not recognised')
  // The head does not show the thousands mark of a later row: reading starts again with it, as here.
  const dialect = {
    ...found.dialect,
    thousands: ',' as const,
    lineEnd: bytes.includes(10) ? ('\n' as const) : ('\r' as const),
  }
  const wanted = [
    { index: 0, name: 't', isTime: true, unitS: 1 },
    { index: 1, name: 'v', isTime: false, unitS: 1 },
  ]
  const log = new ProblemLog('x.csv')
  const odd = new OddRows({ dialect, single: false, wanted, words: about.words, mayBeEmpty: false }, log)
  const collector = new Collector(wanted, [{ slot: 1, factor: 1, overRange: [] }], {
    rows: 4,
    keepTimes: true,
  })
  const plan = {
    separator: 44,
    decimal: 46,
    lineEnd: dialect.lineEnd.charCodeAt(0),
    columns: 2,
    wanted: Uint8Array.of(1, 1),
    width: 2,
  }
  const decoder = new RowDecoder(plan, { odd, log, firstLine: 1, lineBytes: 1000 }, (batch) =>
    collector.take(batch),
  )
  for (const piece of pieces) decoder.push(piece)
  decoder.end()
  const { data, time } = collector.end()
  expect(log.list()).toEqual([])
  return { data: [...data[0]!], step: time!.step, lines: odd.skipped.blank + odd.skipped.remarks }
}

test.each([
  ['LF', '\n'],
  ['CR LF', '\r\n'],
  ['CR', '\r'],
])('a file cut at any place reads the same: %s', (_, end) => {
  const bytes = Buffer.from(LINES.join(end) + end)
  for (let at = 0; at <= bytes.length; at++) {
    const read = decodePieces([bytes.subarray(0, at), bytes.subarray(at)])
    expect(read.data).toEqual(TRUTH)
    expect(read.step).toBeCloseTo(0.001, 12)
    expect(read.lines).toBe(2)
  }
})

test('byte by byte reads the same', () => {
  const bytes = Buffer.from(LINES.join('\n') + '\n')
  expect(decodePieces([...bytes].map((byte) => Uint8Array.of(byte))).data).toEqual(TRUTH)
})
