import { gzipSync } from 'node:zlib'
import { expect, test } from 'vitest'
import type { Dialect } from '../../src/capture/capture.ts'
import { readCapture } from '../../src/capture/read-capture.ts'
import { captureEntry, scratch } from './as-file.ts'

/**
 * One signal written in every way recorders are known to write it (common practice, no source); the right reading is
 * stated, never taken from the reader. Time 0, 2, 4, 6, 8 ms; kV as below.
 */
const KV = [-0.5, 0.25, 12.75, 1.5, 3.125]
const TIMES = ['0.000', '0.002', '0.004', '0.006', '0.008']
const VALUES = ['-0.500', '0.250', '12.750', '1.500', '3.125']
const file = scratch()

interface Animal {
  is: string
  text: string | Uint8Array
  entry?: Record<string, unknown>
  dialect?: Partial<Dialect>
  kv?: readonly number[]
  sampleS?: number
  startS?: number
  warns?: readonly string[]
}

const rows = (
  separator: string,
  cells: readonly (readonly string[])[] = TIMES.map((t, i) => [t, VALUES[i]!]),
): string => cells.map((row) => row.join(separator)).join('\n') + '\n'
const comma = (text: string): string => text.replaceAll('.', ',')
const body = rows(',')
const plain = `time,kv\n${body}`
const utf16 = (text: string, bigEndian: boolean): Buffer => {
  const bytes = Buffer.from(text, 'utf16le')
  return bigEndian ? bytes.swap16() : bytes
}
const noTime = { time: { sample_rate_hz: 500 } }
const kvIs = (column: string | number, more: Record<string, unknown> = {}) => ({
  channels: [{ column, carries: 'secondary', cylinders: 'all', unit: 'kV', ...more }],
})
const numbered = { time: { column: 1, unit: 's' }, ...kvIs(2) }

/** A long quiet start in mV, then a figure large enough for a thousands mark. */
const LATE_ROWS = 20_000
const late = (separator: string, large: string): string =>
  `time${separator}mv\n${Array.from({ length: LATE_ROWS }, (_, i) => `${(i * 0.002).toFixed(3)}${separator}${i === LATE_ROWS - 2 ? large : '12'}`).join('\n')}\n`
const LATE = {
  entry: kvIs('mv', { unit: 'mV' }),
  kv: Array.from({ length: LATE_ROWS }, (_, i) => (i === LATE_ROWS - 2 ? 3937 : 12) / 1e6),
}

const ZOO: readonly Animal[] = [
  {
    is: 'comma and point',
    text: plain,
    dialect: { separator: ',', decimal: '.', header: ['time', 'kv'], dataLine: 2, preambleLines: 0 },
  },
  { is: 'semicolon and point', text: `time;kv\n${rows(';')}`, dialect: { separator: ';', decimal: '.' } },
  {
    is: 'semicolon and decimal comma',
    text: comma(`time;kv\n${rows(';')}`),
    dialect: { separator: ';', decimal: ',' },
  },
  { is: 'tab and point', text: `time\tkv\n${rows('\t')}`, dialect: { separator: '\t', decimal: '.' } },
  {
    is: 'tab and decimal comma',
    text: comma(`time\tkv\n${rows('\t')}`),
    dialect: { separator: '\t', decimal: ',' },
  },
  { is: 'one blank', text: `time kv\n${rows(' ')}`, dialect: { separator: ' ', decimal: '.' } },
  {
    is: 'blanks and decimal comma',
    text: comma(`time kv\n${rows(' ')}`),
    dialect: { separator: ' ', decimal: ',' },
  },
  {
    is: 'columns lined up with blanks',
    text: `   time      kv\n${TIMES.map((t, i) => `  ${t}  ${VALUES[i]!.padStart(8)}`).join('\n')}\n`,
    dialect: { separator: ' ' },
  },
  { is: 'comma and blank', text: `time, kv\n${rows(', ')}`, dialect: { separator: ',' } },
  { is: 'blanks before commas', text: `time ,kv\n${rows(' , ')}` },
  {
    is: 'three lines of preamble',
    text: `Recorder demo 7\nRate;500\n\n${plain}`,
    dialect: { preambleLines: 3, dataLine: 5, separator: ',' },
  },
  {
    is: 'preamble of names and figures',
    text: `Points,5\nRate,500\nTrigger,0.5\n${plain}`,
    dialect: { preambleLines: 3 },
  },
  { is: 'preamble of figures alone', text: `500\n5\n${plain}`, dialect: { preambleLines: 2 } },
  {
    is: 'a thousand lines of preamble',
    text: `${'remark of the recorder, with a comma\n'.repeat(3000)}${plain}`,
    dialect: { preambleLines: 3000, dataLine: 3002 },
  },
  {
    is: 'preamble with one quote mark',
    text: `Size 5" tube\n"loose\n${plain}`,
    dialect: { preambleLines: 2 },
  },
  {
    is: 'a hint for spreadsheets',
    text: `sep=;\ntime;kv\n${rows(';')}`,
    dialect: { separator: ';', preambleLines: 1 },
  },
  { is: 'units in a row', text: `time,kv\ns,kV\n${body}`, dialect: { unitsRow: ['s', 'kV'], dataLine: 3 } },
  {
    is: 'units in a row in brackets',
    text: `time,kv\n(s),[kV]\n${body}`,
    dialect: { unitsRow: ['(s)', '[kV]'] },
  },
  { is: 'a units row with an empty cell', text: `time,kv\n,kV\n${body}`, dialect: { unitsRow: ['', 'kV'] } },
  {
    is: 'units in the header',
    text: `Time (ms),Voltage (mV)\n${rows(
      ',',
      ['0', '2', '4', '6', '8'].map((t, i) => [t, String(KV[i]! * 1e6)]),
    )}`,
    entry: { time: { column: 'Time (ms)', unit: 'ms' }, ...kvIs('Voltage (mV)', { unit: 'mV' }) },
  },
  {
    is: 'a column named without its unit',
    text: `Time [s],Voltage [kV]\n${body}`,
    entry: { time: { column: 'Time', unit: 's' }, ...kvIs('Voltage') },
  },
  { is: 'no header', text: body, entry: numbered, dialect: { header: undefined, dataLine: 1 } },
  {
    is: 'no header, preamble',
    text: `Recorder demo\nModel,X\n${body}`,
    entry: numbered,
    dialect: { dataLine: 3 },
  },
  { is: 'a header, columns by number', text: plain, entry: numbered },
  { is: 'a header as a remark', text: `# time,kv\n${body}`, dialect: { header: ['time', 'kv'] } },
  {
    is: 'time in ms',
    text: `time,kv\n${rows(
      ',',
      ['0', '2', '4', '6', '8'].map((t, i) => [t, VALUES[i]!]),
    )}`,
    entry: { time: { column: 'time', unit: 'ms' } },
  },
  {
    is: 'time in us',
    text: `time,kv\n${rows(
      ',',
      ['0', '2000', '4000', '6000', '8000'].map((t, i) => [t, VALUES[i]!]),
    )}`,
    entry: { time: { column: 'time', unit: 'us' } },
  },
  {
    is: 'time before the trigger',
    text: `time,kv\n${rows(
      ',',
      ['-0.004', '-0.002', '0.000', '0.002', '0.004'].map((t, i) => [t, VALUES[i]!]),
    )}`,
    startS: -0.004,
  },
  {
    is: 'time of day',
    text: `time,kv\n${rows(
      ',',
      ['09:12:00.000', '09:12:00.002', '09:12:00.004', '09:12:00.006', '09:12:00.008'].map((t, i) => [
        t,
        VALUES[i]!,
      ]),
    )}`,
    startS: 33_120,
  },
  {
    is: 'time of day over midnight',
    text: `time,kv\n${rows(
      ',',
      ['23:59:59.996', '23:59:59.998', '00:00:00.000', '00:00:00.002', '00:00:00.004'].map((t, i) => [
        t,
        VALUES[i]!,
      ]),
    )}`,
    startS: 86_399.996,
  },
  {
    is: 'minutes and seconds',
    text: `time,kv\n${rows(
      ',',
      ['01:00.000', '01:00.002', '01:00.004', '01:00.006', '01:00.008'].map((t, i) => [t, VALUES[i]!]),
    )}`,
    startS: 60,
  },
  {
    is: 'whole minutes and seconds',
    text: `time,kv\n${rows(
      ',',
      ['0:58', '0:59', '1:00', '1:01', '1:02'].map((t, i) => [t, VALUES[i]!]),
    )}`,
    sampleS: 1,
    startS: 58,
  },
  {
    is: 'date and time of day',
    text: `time,kv\n${rows(
      ',',
      [
        '2026-03-04T09:12:00.000',
        '2026-03-04T09:12:00.002',
        '2026-03-04T09:12:00.004',
        '2026-03-04T09:12:00.006',
        '2026-03-04T09:12:00.008',
      ].map((t, i) => [t, VALUES[i]!]),
    )}`,
    startS: 33_120,
  },
  {
    is: 'date, day first, and time of day over midnight, decimal comma',
    text: comma(
      `time;kv\n${rows(
        ';',
        ['59.996', '59.998', '00.000', '00.002', '00.004'].map((t, i) => [
          i < 2 ? `04/03/2026 23:59:${t}` : `05/03/2026 00:00:${t}`,
          VALUES[i]!,
        ]),
      )}`,
    ),
    startS: 86_399.996,
  },
  { is: 'no time column', text: `kv\n${VALUES.join('\n')}\n`, entry: noTime, dialect: { columns: 1 } },
  { is: 'no time column, no header', text: `${VALUES.join('\n')}\n`, entry: { ...noTime, ...kvIs(1) } },
  {
    is: 'one column with decimal comma',
    text: `kv\n${comma(VALUES.join('\n'))}\n`,
    entry: noTime,
    dialect: { decimal: ',' },
  },
  { is: 'one quoted column', text: `"kv"\n${VALUES.map((v) => `"${v}"`).join('\n')}\n`, entry: noTime },
  {
    is: 'sample number beside a stated rate',
    text: `n,kv\n${VALUES.map((v, i) => `${i + 1},${v}`).join('\n')}\n`,
    entry: noTime,
  },
  {
    is: 'scientific notation',
    text: `time,kv\n${rows(
      ',',
      TIMES.map((t, i) => [Number(t).toExponential(6).replace('e', 'E'), KV[i]!.toExponential(4)]),
    )}`,
  },
  {
    is: 'scientific notation with decimal comma',
    text: comma(
      `time;kv\n${rows(
        ';',
        TIMES.map((t, i) => [Number(t).toExponential(6), KV[i]!.toExponential(4)]),
      )}`,
    ),
    dialect: { decimal: ',' },
  },
  {
    is: 'plus signs',
    text: `time,kv\n${rows(
      ',',
      TIMES.map((t, i) => [`+${t}`, VALUES[i]!.replace(/^(?=\d)/, '+')]),
    )}`,
  },
  {
    is: 'no digit before the point',
    text: `time,kv\n${rows(
      ',',
      TIMES.map((t, i) => [t.slice(1), VALUES[i]!.replace('0.', '.')]),
    )}`,
  },
  {
    is: 'quoted figures',
    text: `"time","kv"\n${rows(
      ',',
      TIMES.map((t, i) => [`"${t}"`, `"${VALUES[i]}"`]),
    )}`,
  },
  {
    is: 'quoted figures with decimal comma between commas',
    text: `"time","kv"\n${rows(
      ',',
      TIMES.map((t, i) => [`"${comma(t)}"`, `"${comma(VALUES[i]!)}"`]),
    )}`,
    dialect: { separator: ',', decimal: ',' },
  },
  { is: 'a quoted name with a comma', text: `"time","kv, filtered"\n${body}`, entry: kvIs('kv, filtered') },
  {
    is: 'blank and remark lines',
    text: `time,kv\n\n# a remark, here\n${rows(',', [
      ['0.000', '-0.500'],
      ['0.002', '0.250'],
    ])}\n\n% another\n// and one\n${rows(',', [
      ['0.004', '12.750'],
      ['0.006', '1.500'],
      ['0.008', '3.125'],
    ])}\n`,
  },
  { is: 'CR LF', text: plain.replaceAll('\n', '\r\n'), dialect: { lineEnd: '\n' } },
  { is: 'CR alone', text: plain.replaceAll('\n', '\r'), dialect: { lineEnd: '\r' } },
  { is: 'CR CR LF', text: plain.replaceAll('\n', '\r\r\n') },
  { is: 'UTF-8 with a mark', text: `\ufeff${plain}`, dialect: { encoding: 'utf-8', dataOffset: 11 } },
  {
    is: 'UTF-8 names',
    text: `zeit µs,Spannung Ω\n${rows(
      ',',
      ['0', '2000', '4000', '6000', '8000'].map((t, i) => [t, VALUES[i]!]),
    )}`,
    entry: { time: { column: 'zeit µs', unit: 'us' }, ...kvIs('Spannung Ω') },
  },
  {
    is: 'Latin-1 names',
    text: Buffer.from(
      `zeit \xb5s,Spannung \xfc\n${rows(
        ',',
        ['0', '2000', '4000', '6000', '8000'].map((t, i) => [t, VALUES[i]!]),
      )}`,
      'latin1',
    ),
    entry: { time: { column: 'zeit µs', unit: 'us' }, ...kvIs('Spannung ü') },
    dialect: { encoding: 'latin1' },
  },
  { is: 'UTF-16 LE with a mark', text: utf16(`\ufeff${plain}`, false), dialect: { encoding: 'utf-16le' } },
  { is: 'UTF-16 BE with a mark', text: utf16(`\ufeff${plain}`, true), dialect: { encoding: 'utf-16be' } },
  { is: 'UTF-16 LE without a mark', text: utf16(plain, false), dialect: { encoding: 'utf-16le' } },
  { is: 'UTF-16 BE without a mark', text: utf16(plain, true), dialect: { encoding: 'utf-16be' } },
  {
    is: 'zeros after the end',
    text: Buffer.concat([Buffer.from(plain), Buffer.alloc(500)]),
    warns: ['nul-bytes'],
  },
  { is: 'an end-of-file mark', text: `${plain}\u001a` },
  {
    is: 'trailing separators',
    text: `time,kv,\n${rows(
      ',',
      TIMES.map((t, i) => [t, VALUES[i]!, '']),
    )}`,
    dialect: { columns: 2 },
  },
  {
    is: 'trailing separators, not in the header',
    text: `time;kv\n${rows(
      ';',
      TIMES.map((t, i) => [t, VALUES[i]!, '']),
    )}`,
    dialect: { columns: 2 },
  },
  { is: 'trailing separator in the header only', text: `time,kv,\n${body}`, dialect: { columns: 2 } },
  {
    is: 'empty columns a spreadsheet added under a short header',
    text: `time,kv\n${rows(
      ',',
      TIMES.map((t, i) => [t, VALUES[i]!, '', '', '']),
    )}`,
  },
  {
    is: 'empty columns a spreadsheet added everywhere',
    text: `time,kv,,,\n${rows(
      ',',
      TIMES.map((t, i) => [t, VALUES[i]!, '', '', '']),
    )}`,
  },
  { is: 'empty cells at the end of some rows', text: plain.replace('12.750\n', '12.750,,,\n') },
  {
    is: 'a footer of words',
    text: `${plain}\nEnd of data\nWritten by a recorder, invented\n`,
    warns: ['ragged-row'],
  },
  { is: 'a stated rate that the time column bears out', text: plain, entry: noTime },
  {
    is: 'a stated rate beside stamps in us',
    text: `time [us],kv\n${rows(
      ',',
      ['0', '2000', '4000', '6000', '8000'].map((t, i) => [t, VALUES[i]!]),
    )}`,
    entry: noTime,
  },
  { is: 'a last line cut short', text: `${plain}0.0`, warns: ['row-cut-off'] },
  { is: 'a last line cut within a figure', text: `${plain}0.010,9.9`, warns: ['row-cut-off'] },
  { is: 'a short last line', text: `${plain}0.010\n`, warns: ['ragged-row'] },
  { is: 'no line end after the last row', text: plain.trimEnd() },
  { is: 'separators alone at the end', text: `${plain},\n,\n`, warns: ['rows-without-figures'] },
  { is: 'gzip', text: gzipSync(plain) },
  {
    is: 'gzip of several members',
    text: Buffer.concat([gzipSync(plain.slice(0, 20)), gzipSync(plain.slice(20))]),
  },
  { is: 'gzip of UTF-16', text: gzipSync(utf16(`\ufeff${plain}`, false)) },
  { is: 'gzip padded with zeros', text: Buffer.concat([gzipSync(plain), Buffer.alloc(64)]) },
  {
    is: 'other columns between',
    text: `a,time,b,kv,c\n${TIMES.map((t, i) => `x,${t},7,${VALUES[i]},`).join('\n')}\n`,
  },
  {
    is: 'a date and a remark in columns not asked for',
    text: `date,time,kv,note\n${TIMES.map((t, i) => `2026-03-04,${t},${VALUES[i]},"ok, good"`).join('\n')}\n`,
  },
  {
    is: 'columns in another order',
    text: `kv,time\n${TIMES.map((t, i) => `${VALUES[i]},${t}`).join('\n')}\n`,
  },
  {
    is: 'thousands marked by commas',
    text: `time,"mv"\n${TIMES.map((t, i) => `${t},"${(KV[i]! * 1e6).toLocaleString('en-US')}.0"`).join('\n')}\n`,
    entry: kvIs('mv', { unit: 'mV' }),
    dialect: { thousands: ',' },
  },
  {
    is: 'thousands marked by points',
    text:
      comma(`time;mv\n`) +
      TIMES.map(
        (t, i) => `${comma(t)};${(KV[i]! * 1e6).toLocaleString('en-US').replaceAll(',', '.')},0\n`,
      ).join(''),
    entry: kvIs('mv', { unit: 'mV' }),
    dialect: { decimal: ',', thousands: '.' },
  },
  {
    is: 'thousands marked by blanks',
    text:
      comma(`time;mv\n`) +
      TIMES.map(
        (t, i) => `${comma(t)};${(KV[i]! * 1e6).toLocaleString('en-US').replaceAll(',', ' ')}\n`,
      ).join(''),
    entry: kvIs('mv', { unit: 'mV' }),
    dialect: { decimal: ',', thousands: ' ' },
  },
  {
    is: 'thousands marked by narrow no-break spaces',
    text:
      `time\tmv\n` +
      TIMES.map(
        (t, i) => `${comma(t)}\t${(KV[i]! * 1e6).toLocaleString('en-US').replaceAll(',', '\u202f')}\n`,
      ).join(''),
    entry: kvIs('mv', { unit: 'mV' }),
    dialect: { decimal: ',' },
  },
  {
    is: 'thousands marked by apostrophes',
    text:
      `time;mv\n` +
      TIMES.map((t, i) => `${t};${(KV[i]! * 1e6).toLocaleString('en-US').replaceAll(',', "'")}\n`).join(''),
    entry: kvIs('mv', { unit: 'mV' }),
    dialect: { decimal: '.' },
  },
  {
    is: 'quoted thousands that first show after the head',
    text: late(',', '"3,937"'),
    ...LATE,
    dialect: { decimal: '.', thousands: ',' },
  },
  {
    is: 'thousands beside a decimal sign that first show after the head',
    text: late(';', '3,937.0'),
    ...LATE,
    dialect: { decimal: '.', thousands: ',' },
  },
  { is: 'a true minus sign', text: plain.replace('-', '\u2212') },
  {
    is: 'names in a second line of preamble',
    text: `file,zoo\ntime,kv\ns,kV\n\n${body}`,
    dialect: { preambleLines: 1, dataLine: 5 },
  },
  {
    is: 'three decimals that a thousands mark could be',
    text: `time;kv\n0,000;1,500\n0,002;1,250\n0,004;2,750\n0,006;1,500\n0,008;3,125\n`,
    kv: [1.5, 1.25, 2.75, 1.5, 3.125],
    dialect: { decimal: ',' },
  },
  {
    is: 'over-range words',
    text: plain.replace('12.750', 'Inf').replace('-0.500', '-Inf'),
    entry: { over_range: ['Inf', '-Inf'] },
    kv: [0.25, 0.25, 3.125, 1.5, 3.125],
  },
  {
    is: 'over-range word without a side',
    text: plain.replace('12.750', '***'),
    entry: { over_range: ['***'] },
    kv: [-0.5, 0.25, 3.125, 1.5, 3.125],
  },
  {
    is: 'over-range as a figure',
    text: plain.replace('12.750', '9.91E+37'),
    entry: { over_range: ['9.91E+37'] },
    kv: [-0.5, 0.25, 3.125, 1.5, 3.125],
  },
  {
    is: 'over-range with declared limits',
    text: plain.replace('12.750', 'Inf'),
    entry: { over_range: ['Inf'], ...kvIs('kv', { limits: [-20, 20] }) },
    kv: [-0.5, 0.25, 20, 1.5, 3.125],
  },
  {
    is: 'whole numbers',
    text: `time,kv\n0,1\n2,-3\n4,12\n6,0\n8,5\n`,
    entry: { time: { column: 'time', unit: 'ms' } },
    kv: [1, -3, 12, 0, 5],
    dialect: { decimalSeen: false },
  },
  {
    is: 'a scale and a unit',
    text: `time,v\n${body}`,
    entry: kvIs('v', { unit: 'V', scale: 2000 }),
    kv: KV.map((v) => 2 * v),
  },
]

test.each(ZOO)(
  '$is',
  async ({ is, text, entry, dialect, kv = KV, sampleS = 0.002, startS = 0, warns = [] }) => {
    const read = await readCapture(file(`${is.replace(/\W+/g, '-')}.csv`, text), captureEntry(entry))
    expect(Array.from(read.channels[0]!.data)).toEqual(kv.map(Math.fround))
    expect(read.rows).toBe(kv.length)
    expect(read.sampleS).toBeCloseTo(sampleS, 12)
    expect(read.startS).toBeCloseTo(startS, 9)
    expect(read.timesS).toBeUndefined()
    expect(read.warnings.map(({ code }) => code)).toEqual(warns)
    expect(read.dialect.evidence.length).toBeGreaterThan(4)
    if (dialect) expect(read.dialect).toMatchObject(dialect)
  },
)

test('the zoo holds at least eighty files', () => expect(ZOO.length).toBeGreaterThanOrEqual(85))
