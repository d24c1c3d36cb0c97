import fc from 'fast-check'
import Papa from 'papaparse'
import { expect, test } from 'vitest'
import { decodeRows, newBatch, type RowPlan } from '../../src/capture/decode-rows.ts'
import { splitRow } from '../../src/capture/split-row.ts'

// The byte decoder reads the bulk of a plain file instead of papaparse. Whole tables as recorders write them, with
// damage here and there: what the decoder takes must be what papaparse and Number() make of the same text.

const figure = fc.oneof(
  fc.integer({ min: -32_768, max: 32_767 }).map(String),
  fc.double({ min: -500, max: 500, noNaN: true }).map((value) => value.toFixed(5)),
  fc.integer({ min: -99_999, max: 99_999 }).map((value) => (value / 1e8).toExponential(4)),
  fc.constantFrom('-0', '.5', '5.', '+1'),
)
const oddCell = fc.constantFrom('', 'Inf', '"1.5"', '0x1f', '1 2', '"a""b"', '1e400')
const cell = fc.oneof(
  { weight: 300, arbitrary: figure },
  { weight: 2, arbitrary: oddCell },
  { weight: 3, arbitrary: figure.map((text) => ` ${text} `) },
)
const table = fc.record({
  separator: fc.constantFrom(',', ';', '\t'),
  comma: fc.boolean(),
  end: fc.constantFrom('\n', '\r\n'),
  rows: fc
    .integer({ min: 1, max: 4 })
    .chain((columns) =>
      fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), { minLength: 1, maxLength: 40 }),
    ),
})

test('the byte decoder takes what papaparse reads, or hands the row on', () => {
  let taken = 0
  let handedOn = 0
  fc.assert(
    fc.property(table, ({ separator, comma, end, rows }) => {
      const decimal = comma && separator !== ',' ? ',' : '.'
      const text = rows.map((row) => row.join(separator).replaceAll('.', decimal) + end).join('')
      const { data } = Papa.parse<string[]>(text, { delimiter: separator, newline: end })
      const columns = rows[0]!.length
      const plan: RowPlan = {
        separator: separator.charCodeAt(0),
        decimal: decimal.charCodeAt(0),
        lineEnd: 10,
        columns,
        wanted: new Uint8Array(columns).fill(1),
        width: columns,
      }
      const bytes = Buffer.from(text)
      const batch = newBatch(rows.length, columns)
      for (let at = 0, line = 0; at < bytes.length; line++) {
        batch.rows = 0
        at = decodeRows(bytes, { from: at, to: bytes.length }, plan, batch)
        for (let row = 0; row < batch.rows; row++, line++) {
          const theirs = data[line]!.map((written) => Number(written.trim().replace(decimal, '.')))
          expect([...batch.values.subarray(row * columns, (row + 1) * columns)]).toEqual(theirs)
          taken++
        }
        if (at >= bytes.length) break
        at = bytes.indexOf(10, at) + 1
        handedOn++
      }
    }),
    { numRuns: 4000, seed: 20_261 },
  )
  // The plain majority is the decoder's; a test in which all is handed on would show nothing.
  expect(taken).toBeGreaterThan(10 * handedOn)
  expect(handedOn).toBeGreaterThan(100)
})

test.each([
  ['1.5;"2,5";x', ';', ['1.5', '2,5', 'x']],
  ['"a;b";"c ""d"""', ';', ['a;b', 'c "d"']],
  ['\t1\t2\t', '\t', ['', '1', '2', '']],
  ['\t"1"\t2', '\t', ['', '1', '2']],
  ['  1   2 ', ' ', ['1', '2']],
  ['"1,5', ',', ['"1', '5']],
  ['1,"2', ',', ['1', '"2']],
  ['', ',', ['']],
  ['"12"', 'none', ['12']],
] as const)('%j parted at %j', (line, separator, cells) => {
  expect(splitRow(line, separator)).toEqual(cells)
})
