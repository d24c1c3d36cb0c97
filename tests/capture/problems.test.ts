import { execFileSync } from 'node:child_process'
import { rmSync } from 'node:fs'
import { gzipSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { readCapture, readRecording } from '../../src/capture/read-capture.ts'
import { readingLimits } from '../../src/limits/reading-limits.ts'
import { captureEntry, places, problemsOf, scratch, traceEntry } from './as-file.ts'

const file = scratch()
const HEAD = 'time,kv\n'
const row = (i: number, kv = '1.5'): string => `${(i * 0.001).toFixed(3)},${kv}\n`
const rowsFrom = (from: number, to: number): string =>
  Array.from({ length: to - from }, (_, i) => row(from + i)).join('')
/** Rows by semicolons, one of which has a comma where the others have a point. */
const damagedAt = (at: number): string =>
  Array.from(
    { length: at + 5 },
    (_, i) => `${(i * 0.001).toFixed(3)};${i === at ? '1,250' : '1.250'}\n`,
  ).join('')
const kvIs = (column: string | number, more: Record<string, unknown> = {}) => ({
  channels: [{ column, carries: 'secondary', cylinders: 'all', unit: 'kV', ...more }],
})
const noTime = { time: { sample_rate_hz: 1000 } }

const refused = async (name: string, content: string | Uint8Array, entry: Record<string, unknown> = {}) =>
  problemsOf(readCapture(file(`${name.replace(/\W+/g, '-')}.csv`, content), captureEntry(entry)))

/** name, text, entry, `code:line:column` expected. */
const WRONG: readonly [string, string | Uint8Array, Record<string, unknown>, readonly string[]][] = [
  ['text in a figure', `${HEAD}${row(0)}${row(1, 'abc')}${row(2)}`, {}, ['not-a-number:3:2']],
  [
    'text in two places',
    `${HEAD}${row(0, 'x')}${row(1)}${row(2, 'y')}${rowsFrom(3, 9)}`,
    {},
    ['not-a-number:2:2', 'not-a-number:4:2'],
  ],
  [
    'text in the time and beside it',
    `${HEAD}${row(0)}soon,later\n${row(2)}`,
    {},
    ['not-a-time:3:1', 'not-a-number:3:2'],
  ],
  [
    'an over-range word that is not declared',
    `${HEAD}${row(0)}${row(1, 'Inf')}${row(2)}`,
    {},
    ['not-a-number:3:2'],
  ],
  ['a mark for no reading', `${HEAD}${row(0)}${row(1, '9.91E+37')}${row(2)}`, {}, ['out-of-range:3:2']],
  ['a figure beyond doubles', `${HEAD}${row(0)}${row(1, '1e999')}${row(2)}`, {}, ['out-of-range:3:2']],
  ['an empty cell', `${HEAD}${row(0)}${row(1, '')}${row(2)}`, {}, ['empty-cell:3:2']],
  [
    'an empty row of separators among data',
    `${HEAD}${row(0)},\n${row(1)}${row(2)}`,
    {},
    ['empty-cell:3:1', 'empty-cell:3:2'],
  ],
  [
    'a quoted figure that lost its end',
    '"time","kv"\n"0.000","1.5"\n"0.001","1\n"0.002","1.5"\n',
    {},
    ['not-a-number:3:2'],
  ],
  [
    'a mark opened in a row without marks',
    `${HEAD}${row(0)}${row(1, '"1.5')}${row(2)}`,
    {},
    ['not-a-number:3:2'],
  ],
  ['a short row', `${HEAD}${row(0)}0.001\n${row(2)}`, {}, ['ragged-row:3:-']],
  ['a long row', `${HEAD}${row(0)}0.001,1.5,2.5\n${row(2)}`, {}, ['ragged-row:3:-']],
  ['zero bytes in a figure', `${HEAD}${row(0)}0.001,1\0\0.5\n${row(2)}`, {}, ['nul-bytes:3:2']],
  ['time running back', `${HEAD}${row(0)}${row(1)}${row(2)}${row(1)}${row(3)}`, {}, ['time-backwards:5:1']],
  [
    'every time written twice',
    `${HEAD}${Array.from({ length: 400 }, (_, i) => row((i >> 1) * 8)).join('')}`,
    {},
    ['time-repeat:-:1'],
  ],
  ['hours and minutes with a word', `${HEAD}9:12 AM,1\n9:12 AM,1\n9:13 AM,1\n`, {}, ['not-a-time:2:1']],
  ['time standing still', `${HEAD}${row(4).repeat(9)}`, {}, ['time-repeat:-:1']],
  [
    'many gaps',
    `${HEAD}${Array.from({ length: 400 }, (_, i) => row(i + 5 * Math.floor(i / 20))).join('')}`,
    {},
    ['time-gap:22:1'],
  ],
  ['one gap too long', `${HEAD}${rowsFrom(0, 50)}${rowsFrom(60, 100)}`, {}, ['time-gap:52:1']],
  [
    'many repeats',
    `${HEAD}${Array.from({ length: 400 }, (_, i) => `${((i - Math.floor(i / 20)) * 1e-3).toFixed(5)},1\n`).join('')}`,
    {},
    ['time-repeat:22:1'],
  ],
  [
    'stamps that stray, each step by no more than its last digit',
    `${HEAD}${Array.from({ length: 400 }, (_, i) => row(i + Math.floor(Math.min(i, 100) / 10))).join('')}`,
    {},
    ['time-uneven:-:1'],
  ],
  [
    'an unsteady clock',
    `${HEAD}${Array.from({ length: 60 }, (_, i) => `${(i + 0.4 * (i % 3 === 0 ? 1 : 0)).toFixed(4)},1\n`).join('')}`,
    {},
    ['time-uneven:3:1'],
  ],
  ['an unknown column', `${HEAD}${rowsFrom(0, 4)}`, kvIs('kw'), ['unknown-column:1:-']],
  [
    'two unknown columns',
    `${HEAD}${rowsFrom(0, 4)}`,
    { time: { column: 'thyme', unit: 's' }, ...kvIs('kw') },
    ['unknown-column:1:-', 'unknown-column:1:-'],
  ],
  ['a column number too high', `${HEAD}${rowsFrom(0, 4)}`, kvIs(3), ['unknown-column:1:-']],
  ['a name without a header', rowsFrom(0, 4), {}, ['unknown-column:-:-', 'unknown-column:-:-']],
  ['a header of another length', `time,kv,sync\n${rowsFrom(0, 4)}`, {}, ['header-mismatch:1:-']],
  [
    'a name given twice',
    `time,kv,kv\n0.000,1.5,2.5\n0.001,1.5,2.5\n0.002,1.5,2.5\n`,
    {},
    ['duplicate-entry:1:-'],
  ],
  [
    'another unit in the header',
    `time,Voltage (mV)\n${rowsFrom(0, 4)}`,
    kvIs('Voltage (mV)'),
    ['wrong-unit:1:2'],
  ],
  ['another unit in the units row', `time,kv\n(s),(V)\n${rowsFrom(0, 4)}`, {}, ['wrong-unit:2:2']],
  ['another unit of time', `time,kv\nms,kV\n${rowsFrom(0, 4)}`, {}, ['wrong-unit:2:1']],
  [
    'a unit in the name',
    `time_us,lead_v\n${rowsFrom(0, 4)}`,
    { time: { column: 'time_us', unit: 's' }, ...kvIs('lead_v') },
    ['wrong-unit:1:1', 'wrong-unit:1:2'],
  ],
  ['a secondary in rpm', `${HEAD}${rowsFrom(0, 4)}`, kvIs('kv', { unit: 'rpm' }), ['wrong-unit:-:-']],
  ['a header alone', HEAD, {}, ['no-data-rows:-:-']],
  ['words alone', 'nothing here\nand nothing there\n', {}, ['no-data-rows:-:-']],
  ['blanks alone', ' \n\n \n', {}, ['no-data-rows:-:-']],
  ['one row', `${HEAD}${row(0)}`, {}, ['no-data-rows:-:-']],
  ['an empty file', '', {}, ['empty-file:-:-']],
  ['an empty gzip', gzipSync(''), {}, ['no-data-rows:-:-']],
  [
    'a comma that parts cells or digits',
    '1,5\n2,5\n3,5\n',
    { ...noTime, ...kvIs(1) },
    ['ambiguous-dialect:1:-'],
  ],
  [
    'three digits that are decimals or thousands',
    'kv\n1,500\n2,250\n3,125\n',
    { ...noTime, ...kvIs('kv') },
    ['ambiguous-dialect:2:-'],
  ],
  [
    'three digits after a point between semicolons',
    'time;kv\n1.500;1.125\n2.500;1.250\n3.500;1.375\n',
    {},
    ['ambiguous-dialect:2:-'],
  ],
  [
    'decimal points and decimal commas',
    'time;kv\n0.5;1,25\n1.5;1,75\n2.5;2,25\n',
    {},
    ['ambiguous-dialect:2:-'],
  ],
  ['one decimal sign damaged into a comma', `time;kv\n${damagedAt(3)}`, {}, ['ambiguous-dialect:2:-']],
  ['one decimal sign damaged below the head', `time;kv\n${damagedAt(15_000)}`, {}, ['not-a-number:15002:2']],
  [
    'decimal commas between commas',
    '0,000,1,05\n0,001,1,15\n0,002,1,25\n',
    { time: { column: 1, unit: 's' }, ...kvIs(2) },
    ['ambiguous-dialect:1:-'],
  ],
  ['a cut gzip', gzipSync(`${HEAD}${rowsFrom(0, 400)}`).subarray(0, 200), {}, ['gzip-broken:-:-']],
  ['a damaged gzip', damaged(gzipSync(`${HEAD}${rowsFrom(0, 400)}`)), {}, ['gzip-broken:-:-']],
  [
    'words after a gzip',
    Buffer.concat([gzipSync(`${HEAD}${rowsFrom(0, 4)}`), Buffer.from('more')]),
    {},
    ['gzip-broken:-:-'],
  ],
  ["a spreadsheet's error in the first row", `${HEAD}#N/A,1.5\n${rowsFrom(1, 9)}`, {}, ['not-a-time:2:1']],
  [
    "a spreadsheet's marks for too narrow a column",
    `${HEAD}${rowsFrom(0, 4)}########,1.5\n${rowsFrom(5, 9)}`,
    {},
    ['not-a-time:6:1'],
  ],
  [
    'a sample taken out as a remark',
    `${HEAD}${rowsFrom(0, 4)}# ${row(4)}${rowsFrom(5, 9)}`,
    {},
    ['not-a-time:6:1'],
  ],
  [
    'a second recording behind the first',
    `${HEAD}${rowsFrom(0, 4)}${HEAD}${rowsFrom(0, 4)}`,
    {},
    ['header-again:6:-'],
  ],
  [
    'a second recording with its units',
    `time,kv\ns,kV\n${rowsFrom(0, 4)}time,kv\ns,kV\n${rowsFrom(0, 4)}`,
    {},
    ['header-again:7:-'],
  ],
  [
    'eleven lines of words below the data',
    `${HEAD}${rowsFrom(0, 9000)}${'a word\n'.repeat(11)}`,
    {},
    ['ragged-row:9002:-'],
  ],
  [
    'volts called kilovolts',
    `${HEAD}${row(0, '9000')}${row(1, '1500')}${row(2, '-20')}`,
    {},
    ['implausible-voltage:-:2'],
  ],
  [
    'a rate that the stamps contradict',
    `${HEAD}${rowsFrom(0, 9)}`,
    { time: { sample_rate_hz: 2000 } },
    ['rate-contradicted:1:1'],
  ],
  [
    'a rate that stamps in ms contradict',
    `time (ms),kv\n${Array.from({ length: 9 }, (_, i) => `${i},1.5\n`).join('')}`,
    { time: { sample_rate_hz: 500 } },
    ['rate-contradicted:1:1'],
  ],
  [
    'stamps too coarse for a rate',
    `${HEAD}${Array.from({ length: 400 }, (_, i) => `${(i * 1e-4).toFixed(3)},1\n`).join('')}`,
    {},
    ['time-coarse:-:1'],
  ],
  [
    'a workbook by another name',
    Buffer.concat([Buffer.from('PK\x03\x04'), Buffer.from('xl/workbook.xml'), Buffer.alloc(99, 7)]),
    {},
    ['not-text:-:-'],
  ],
  [
    'a packed archive',
    Buffer.concat([Buffer.from('PK\x03\x04'), Buffer.from('idle.csv'), Buffer.alloc(99, 7)]),
    {},
    ['not-text:-:-'],
  ],
  ['a document', '%PDF-1.4\n1 0 obj\n', {}, ['not-text:-:-']],
  ['a web page', '<!DOCTYPE html>\n<html><body>1,2</body></html>\n', {}, ['not-text:-:-']],
  ['a picture', Buffer.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a), {}, ['not-text:-:-']],
  ['a placeholder of zeros', Buffer.alloc(70_000), {}, ['not-text:-:-']],
  [
    'all samples over range',
    `${HEAD}${row(0, 'Inf')}${row(1, 'Inf')}${row(2, 'Inf')}`,
    { over_range: ['Inf'] },
    ['out-of-range:-:2'],
  ],
]

function damaged(bytes: Buffer): Buffer {
  const copy = Buffer.from(bytes)
  copy[60]! ^= 0x20
  return copy
}

describe('a capture is refused for', () => {
  test.each(WRONG)('%s', async (name, content, entry, expected) => {
    expect(places(await refused(name, content, entry))).toEqual(expected)
  })

  test('a file that is not there', async () => {
    expect(places(await problemsOf(readCapture('/no/such/file.csv', captureEntry())))).toEqual([
      'missing-file:-:-',
    ])
  })

  test.skipIf(process.platform === 'win32')(
    'a pipe that nobody writes to: refused, not waited for',
    async () => {
      const pipe = file('a-pipe', '')
      rmSync(pipe)
      execFileSync('mkfifo', [pipe])
      expect(places(await problemsOf(readCapture(pipe, captureEntry())))).toEqual(['unreadable-file:-:-'])
    },
  )

  test('a folder', async () => {
    expect(places(await problemsOf(readCapture('/', captureEntry())))).toEqual(['unreadable-file:-:-'])
  })
})

test('what was found is told: text, column, count', async () => {
  const [bad] = await refused(
    'told',
    `${HEAD}${row(0)}${row(1, '??')}${row(2, '??')}${row(3, '??')}${row(4)}`,
  )
  expect(bad).toEqual({
    code: 'not-a-number',
    severity: 'refuse',
    file: 'captures/zoo.csv',
    line: 3,
    column: 2,
    args: { column: 'kv', found: '??', count: 3 },
  })
})

test('one word all over a column is one problem, at its first place, with its count; another word is another', async () => {
  const text =
    HEAD +
    Array.from({ length: 400 }, (_, i) =>
      row(i, i % 50 === 7 ? 'OL' : i === 100 ? 'NaN' : i % 90 === 1 ? '' : '1'),
    ).join('')
  const found = await refused('one word', text)
  expect(found.map(({ line, code, args }) => [line, code, 'count' in args && args.count])).toEqual([
    [3, 'empty-cell', 5],
    [9, 'not-a-number', 8],
    [102, 'not-a-number', 1],
  ])
})

test('rows of one wrong length, one after another or apart, are one problem with their number', async () => {
  const odd = 'what is this\n'
  const found = await refused(
    'ragged rows',
    `${HEAD}${row(0)}${odd.repeat(3)}${row(1)}${row(2)}${odd}${rowsFrom(3, 6)}`,
  )
  expect(found.map(({ line, args }) => [line, 'count' in args && args.count])).toEqual([[3, 4]])
})

test('coarse stamps that still give the rate to a thousandth are read and told of', async () => {
  const text = `${HEAD}${Array.from({ length: 20_000 }, (_, i) => `${(i * 5e-5).toFixed(3)},1\n`).join('')}`
  const read = await readCapture(file('coarse.csv', text), captureEntry())
  expect(read.sampleS).toBeCloseTo(5e-5, 7)
  expect(places(read.warnings)).toEqual(['time-coarse:-:1'])
})

test('stamps so coarse that the first thousands of rows have one time are read too, where the whole gives the rate', async () => {
  const text = `${HEAD}${Array.from({ length: 500_000 }, (_, i) => `${(i * 2e-6).toFixed(2)},1\n`).join('')}`
  const read = await readCapture(file('one-time.csv', text), captureEntry())
  expect(read.sampleS).toBeCloseTo(2e-6, 7)
  expect(places(read.warnings)).toEqual(['time-coarse:-:1'])
})

test('a row of another length is told with its text', async () => {
  const [found] = await refused('ragged text', `${HEAD}${row(0)}what is this\n${row(2)}`)
  expect(found!.args).toEqual({ found: 1, expected: 2, count: 1, text: 'what is this' })
})

test('two readings are both named', async () => {
  const [bad] = await refused('both', '1,5\n2,5\n3,5\n', { ...noTime, ...kvIs(1) })
  expect(bad?.args).toEqual({ first: '1,5 = 1 | 5', second: '1,5 = 1.5' })
})

test('a hundred problems are listed, the rest counted', async () => {
  const text = HEAD + Array.from({ length: 400 }, (_, i) => row(i, i % 2 === 1 ? `x${i}` : '1')).join('')
  const found = await refused('hundred', text)
  expect(found.length).toBe(101)
  expect(found.slice(0, 100).every(({ code }) => code === 'not-a-number')).toBe(true)
  expect(found[100]).toMatchObject({ code: 'more-problems', args: { count: 100 } })
})

test('a few gaps and repeats are kept and shown', async () => {
  const text = HEAD + rowsFrom(0, 2000) + rowsFrom(2004, 4000) + row(3999) + rowsFrom(4000, 6000)
  const read = await readCapture(file('jumps.csv', text), captureEntry())
  expect(places(read.warnings)).toEqual(['time-gap:2002:1', 'time-repeat:3998:1'])
  expect(read.warnings.every(({ severity }) => severity === 'warn')).toBe(true)
  expect(read.sampleS).toBeCloseTo(0.001, 12)
  expect(read.jumps!.map(({ row: at }) => at)).toEqual([2000, 3996])
  expect(read.jumps![0]!.extraS).toBeCloseTo(0.004, 9)
  expect(read.jumps![1]!.extraS).toBeCloseTo(-0.001, 9)
})

test('another unit beside a stated scale is shown, not refused', async () => {
  const read = await readCapture(
    file('scaled.csv', `time,out (V)\n${rowsFrom(0, 5)}`),
    captureEntry(kvIs('out (V)', { scale: 1.5 })),
  )
  expect(places(read.warnings)).toEqual(['wrong-unit:1:2'])
  expect(read.channels[0]!.data[0]).toBeCloseTo(2.25, 6)
})

describe('a decimal sign that first shows after the head', () => {
  const late = (tail: string) => `kv\n${'0\n'.repeat(40_000)}${tail}`
  test.each([
    ['comma', '0,5\n1,25\n', [0.5, 1.25]],
    ['point', '0.5\n1.25\n', [0.5, 1.25]],
    ['comma, settled by a later row', '1,250\n0,500\n', [1.25, 0.5]],
  ])('%s', async (name, tail, values) => {
    const read = await readCapture(
      file(`late-${name.slice(0, 5)}.csv`, late(tail)),
      captureEntry({ ...noTime, ...kvIs('kv') }),
    )
    expect([...read.channels[0]!.data.subarray(-2)]).toEqual(values)
    expect(read.rows).toBe(40_002)
  })

  test('is refused where it stays open', async () => {
    expect(places(await refused('late-open', late('1,250\n2,500\n'), { ...noTime, ...kvIs('kv') }))).toEqual([
      'ambiguous-dialect:40002:-',
    ])
  })
})

describe('a trace', () => {
  test('may be unevenly sampled and then keeps its times', async () => {
    const read = await readRecording(
      file('uneven.csv', 'time,rpm\n0,800\n150,805\n280,790\n450,811\n'),
      traceEntry({ time: { column: 'time', unit: 'ms' } }),
    )
    expect([...read.timesS!]).toEqual([0, 0.15, 0.28, 0.45].map((t) => expect.closeTo(t, 12)))
    expect([...read.channels[0]!.data]).toEqual([800, 805, 790, 811])
    expect(read.warnings).toEqual([])
  })

  test('that is even keeps none', async () => {
    const read = await readRecording(
      file('even.csv', 'time,rpm\n0.0,800\n0.1,805\n0.2,790\n0.3,811\n'),
      traceEntry(),
    )
    expect(read.timesS).toBeUndefined()
    expect(read.sampleS).toBeCloseTo(0.1, 12)
  })

  test('may have rows without a figure', async () => {
    const read = await readRecording(
      file('holes.csv', 'time,rpm\n0.0,800\n0.1,\n0.2,790\n0.3,811\n'),
      traceEntry(),
    )
    expect([...read.channels[0]!.data]).toEqual([800, 790, 811])
    expect(places(read.warnings)).toEqual(['rows-without-figures:3:-'])
    expect([...read.timesS!]).toEqual([0, 0.2, 0.3])
  })

  test('may not run back', async () => {
    const found = await problemsOf(
      readRecording(file('back.csv', 'time,rpm\n0.0,800\n0.2,805\n0.1,790\n0.3,811\n'), traceEntry()),
    )
    expect(places(found)).toEqual(['time-backwards:4:1'])
  })
})

describe('limits', () => {
  const read = (
    name: string,
    content: string | Uint8Array,
    change: Partial<ReturnType<typeof readingLimits>>,
    entry = {},
  ) => problemsOf(readCapture(file(name, content), captureEntry(entry), { ...readingLimits(), ...change }))

  test('text that unpacks beyond the limit', async () => {
    const bomb = gzipSync(HEAD + row(0).repeat(300_000))
    expect(bomb.length).toBeLessThan(20_000)
    expect(places(await read('bomb.csv', bomb, { textBytes: 2 ** 20 }))).toEqual(['too-large:-:-'])
  })

  test('a line without end', async () => {
    expect(
      places(await read('line.csv', `${HEAD}${rowsFrom(0, 4)}${'1'.repeat(5000)}`, { lineBytes: 4096 })),
    ).toEqual(['line-too-long:6:-'])
    expect(
      places(await read('line-2.csv', `${HEAD}${rowsFrom(0, 4)}${'x'.repeat(5000)}\n`, { lineBytes: 4096 })),
    ).toEqual(['line-too-long:6:-'])
  })

  test('a file that is one line', async () => {
    expect(places(await read('one.csv', Buffer.alloc(8 * 2 ** 20, 0x31), {}))).toEqual(['line-too-long:1:-'])
    expect(places(await read('zeros.csv', Buffer.alloc(8 * 2 ** 20), {}))).toEqual(['not-text:-:-'])
  })

  test('a hundred thousand columns', async () => {
    const wide = `${Array.from({ length: 100_000 }, (_, i) => i + 0.5).join(',')}\n`
    expect(
      places(await read('wide.csv', wide.repeat(3), {}, { time: { column: 1, unit: 's' }, ...kvIs(2) })),
    ).toEqual(['too-many-columns:1:-'])
  })

  test('too many rows', async () => {
    expect(places(await read('rows.csv', HEAD + rowsFrom(0, 9000), { rows: 5000 }))).toEqual([
      'too-many-rows:-:-',
    ])
  })
})
