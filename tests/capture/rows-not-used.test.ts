import { expect, test } from 'vitest'
import { readCapture } from '../../src/capture/read-capture.ts'
import { captureEntry, places, problemsOf, scratch } from './as-file.ts'

/** A row that is not used is counted and named by its line, or the file is refused; none may go in silence. */
const file = scratch()
const rows = (from: number, to: number, separator = ',', end = '\n'): string =>
  Array.from(
    { length: to - from },
    (_, i) => `${((from + i) * 0.002).toFixed(3)}${separator}${(from + i) % 9}.25${end}`,
  ).join('')
const numbered = captureEntry({
  time: { column: 1, unit: 's' },
  channels: [{ column: 2, carries: 'secondary', cylinders: 'all', unit: 'kV' }],
})
const refusals = async (text: string | Uint8Array, entry = captureEntry()) =>
  places(await problemsOf(readCapture(file('a.csv', text), entry)))

test.each<[string, string, string[]]>([
  [
    'line feeds, then carriage returns',
    `time,kv\n${rows(0, 30)}${rows(30, 60, ',', '\r')}`,
    ['line-ends-change:32:-'],
  ],
  [
    'carriage returns, then line feeds',
    `${`time,kv\n${rows(0, 3000)}`.replaceAll('\n', '\r')}${rows(3000, 3060)}`,
    ['line-ends-change:3002:-'],
  ],
  [
    'a remark with rows behind other line ends',
    `time,kv\n${rows(0, 30)}# pause\r${rows(30, 60, ',', '\r')}\n${rows(60, 70)}`,
    ['line-ends-change:32:-'],
  ],
])('%s', async (_, text, expected) => expect(await refusals(text)).toEqual(expected))

test('rows above the data joined by other line ends', async () => {
  expect(await refusals(rows(0, 30, ',', '\r') + rows(30, 60), numbered)).toEqual(['line-ends-change:1:-'])
})

test.each([
  ['lost', (bytes: Buffer) => Buffer.concat([bytes.subarray(0, 601), bytes.subarray(602)])],
  [
    'too many',
    (bytes: Buffer) => Buffer.concat([bytes.subarray(0, 601), Buffer.of(32), bytes.subarray(601)]),
  ],
])('UTF-16 with a byte %s', async (_, change) => {
  const bytes = change(Buffer.from(`\ufefftime,kv\n${rows(0, 200)}`, 'utf16le'))
  expect(await refusals(bytes)).toEqual(['shifted-bytes:28:-'])
})

test('rows above the line of names are told of by their first line and their count', async () => {
  const { rows: read, warnings } = await readCapture(
    file('b.csv', `${rows(0, 4)}time,kv\n${rows(4, 40)}`),
    captureEntry(),
  )
  expect(read).toBe(36)
  expect(warnings.map(({ code, line, args }) => [code, line, args])).toEqual([
    ['rows-above', 1, { count: 4, found: '0.000,0.25' }],
  ])
})

test('damaged rows at the start of a file without names are told of', async () => {
  const { rows: read, warnings } = await readCapture(
    file('c.csv', rows(0, 6).replaceAll(/,.*/g, ',ERR') + rows(6, 40)),
    numbered,
  )
  expect(read).toBe(34)
  expect(warnings.map(({ code, line, args }) => [code, line, args])).toEqual([
    ['rows-above', 1, { count: 6, found: '0.000,ERR' }],
  ])
})

test('more than a few damaged rows under the names are damage, not a preamble', async () => {
  expect(await refusals(`t,u\n${rows(0, 9).replaceAll(/,.*/g, ',ERR')}${rows(9, 40)}`, numbered)).toEqual([
    'not-a-number:2:2',
  ])
})

test('decimal commas that part cells from some row on are not read beside the points before them', async () => {
  const text = rows(0, 9, ',') + rows(9, 60, ',').replaceAll('.', ',')
  expect(await refusals(text, numbered)).toEqual(['ambiguous-dialect:10:-'])
})

test('another separator with stamps of date and time from some row on', async () => {
  const stamped = (from: number, to: number, separator: string): string =>
    Array.from(
      { length: to - from },
      (_, i) =>
        `04.03.2026 09:12:00,${String((from + i) * 2).padStart(3, '0')}${separator}${(from + i) % 9},25\n`,
    ).join('')
  expect(await refusals(stamped(0, 9, ';') + stamped(9, 60, '\t'), numbered)).toEqual(['ragged-row:1:-'])
})

test('a last line that is longer than two rows is no row cut off', async () => {
  const text = `time,kv\n${rows(0, 30)}${rows(30, 60).replaceAll('\n', '\u2028')}`
  expect((await refusals(text)).map((place) => place.split(':')[0])).toEqual(['ragged-row'])
})

test('a lone figure sign that changes within a column is not taken for thousands', async () => {
  const text = `time;kv\n${[4875, 4881].map((v, i) => `${i * 2};${(v / 1000).toFixed(3).replace('.', ',')}\n`).join('')}${[125, 127, 126].map((v, i) => `${4 + i * 2};0.${v}\n`).join('')}`
  expect(await refusals(text, captureEntry({ time: { column: 'time', unit: 'ms' } }))).toEqual([
    'ambiguous-dialect:2:-',
  ])
})
