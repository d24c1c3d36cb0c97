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

test('a quoted sign that changes behind the head of the file, in figures of three digits behind it, is asked about', async () => {
  const stamp = (i: number) => (i * 0.002).toFixed(3)
  const row = (i: number) => `"${780 + (i % 7)}","${i < 1229 ? stamp(i) : stamp(i).replace('.', ',')}"\n`
  const text = `"kv","time"\n${Array.from({ length: 2000 }, (_, i) => row(i)).join('')}`
  expect(await refusals(text, captureEntry())).toEqual(['ambiguous-dialect:1231:-'])
})

test('a comma that parts and points is seen beside a typographic minus too', async () => {
  const kv = ['12,007', '7,573', '8,187', '1,270', '\u22126,811', '\u22128,630', '3,709', '\u22124,888']
  const text = kv.map((v, i) => `${2 * i},${v}\n`).join('')
  expect(await refusals(text, numbered)).toEqual(['ambiguous-dialect:1:-'])
})

test('digits and signs out of step by a byte are told where no line end shows it', async () => {
  const text = `time,kv\r${rows(0, 30, ',', '\r')}`
  const bytes = Buffer.from(`\ufeff${text}`, 'utf16le')
  const cut = bytes.lastIndexOf('0,0', bytes.length, 'utf16le') // within the last row, behind which no line end follows
  const shifted = Buffer.concat([bytes.subarray(0, cut + 1), bytes.subarray(cut + 2, -2)])
  expect((await refusals(shifted)).map((place) => place.split(':')[0])).toEqual(['shifted-bytes'])
})

test('names joined to rows by other line ends are no header', async () => {
  const text = `Points;5000\r# remark\rVoie A; Voie B\r${rows(0, 20, ' ', '\r')}\n${rows(20, 60, ' ', '\r\n')}`
  expect(await refusals(text, numbered)).toEqual(['line-ends-change:1:-'])
})

const told = async (text: string) => {
  const read = await readCapture(file('d.csv', text), numbered)
  return {
    rows: read.rows,
    first: read.channels[0]!.data[0],
    left: read.warnings.flatMap(({ args }) => ('count' in args ? [args.count] : [])),
  }
}

test('every damaged row at the start of a file without names is counted, whatever is left of its quotes', async () => {
  const quoted = (row: number) => `"${(row * 0.002).toFixed(3).replace('.', ',')}","${(row % 9) + 1},25"\n`
  const sound = Array.from({ length: 30 }, (_, i) => quoted(i + 4)).join('')
  const damaged = ['"0,ERR,"1,25"\n', 'x1,---\n', '"0,?,"3,,25","9","4","5\n', '"0,006",ERR,25"\n']
  expect(await told(damaged.join('') + sound)).toEqual({ rows: 30, first: 5.25, left: [4] })
})

// 1,5 and ,125 have the comma within a figure, `1, 5` has it between two: the neighbours of the comma tell.
test.each([
  [
    'decimal commas, bare of a nought, between blanks',
    (i: number) => `${i * 2} ${i < 5 ? 4 : ''},${125 + (i % 9)}\n`,
    4.125,
  ],
  ['commas with a blank behind them', (i: number) => `${i * 2}, ${125 + (i % 9)}\n`, 125],
])('%s', async (_, row, first) => {
  const entry = captureEntry({
    time: { column: 1, unit: 'ms' },
    channels: [{ column: 2, carries: 'secondary', cylinders: 'all', unit: 'kV' }],
  })
  const text = Array.from({ length: 40 }, (_, i) => row(i)).join('')
  const read = await readCapture(file('e.csv', text), entry)
  expect([read.rows, read.channels[0]!.data[0]]).toEqual([40, first])
})

test('a damaged row that begins with a figure is no line of names', async () => {
  const stamp = (i: number) => `"04/03/2026 09:12:00,${String(i * 2).padStart(3, '0')}"`
  const entry = captureEntry({
    time: { column: 2, unit: 's' },
    channels: [{ column: 1, carries: 'secondary', cylinders: 'all', unit: 'V' }],
  })
  const text =
    ['784 x1 09:12:00,000"\n', '787 --- 09:12:00,002"\n'].join('') +
    Array.from({ length: 30 }, (_, i) => `${780 + (i % 9)} ${stamp(i + 2)}\n`).join('')
  const { rows: read, dialect, warnings } = await readCapture(file('f.csv', text), entry)
  expect([read, dialect.header]).toEqual([30, undefined])
  expect(warnings.map(({ code, args }) => [code, 'count' in args && args.count])).toContainEqual([
    'rows-above',
    2,
  ])
})

/** A comma for both, without names: whole numbers alone, of which some may be what stands behind a decimal sign. */
test.each<[string, (i: number) => string]>([
  ['noughts before them', (i) => `${i * 2},${i % 5},${String(i % 100).padStart(3, '0')},3`],
  ['an exponent behind many digits', (i) => `${1 + (i % 9)},${20_070_000 + i}E+2,${i}`],
  ['no noughts at their end', (i) => `${i * 2},4,${String(870 + (i % 25)).replace(/0+$/, '')}`],
])('figures that may be fractions: %s', async (_, row) => {
  const text = Array.from({ length: 60 }, (_, i) => `${row(i)}\n`).join('')
  expect(await refusals(text, numbered)).toEqual(['ambiguous-dialect:1:-'])
})

test('whole numbers that end in noughts too are columns of their own', async () => {
  const entry = captureEntry({
    time: { column: 1, unit: 'ms' },
    channels: [{ column: 2, carries: 'secondary', cylinders: 'all', unit: 'V' }],
  })
  const text = Array.from({ length: 60 }, (_, i) => `${i * 2},${870 + (i % 25)},${95 + (i % 9)}\n`).join('')
  expect((await readCapture(file('g.csv', text), entry)).rows).toBe(60)
})
