import { gzipSync } from 'node:zlib'
import type { Random } from '../../../src/maths/random.ts'

/** A column of whole numbers; `unitDigits` of them stand behind the decimal sign in each unit a file may use. */
export interface ColumnTruth {
  role: string
  /** What the column is called, in the languages recorders speak. */
  names: readonly string[]
  /** Unit as written, and how many of the last digits stand behind its decimal sign. */
  units: readonly { unit: string; digits: number }[]
  wholes: readonly number[]
}

/** What a file is to say, however it is written. */
export interface TableTruth {
  columns: readonly ColumnTruth[]
  rows: number
}

/** A file as written: its bytes, how it was written in short words, and what its columns came to be called. */
export interface Spelled {
  bytes: Buffer
  how: string
  /** By role: the header's name, or the 1-based place where there is no header, and the unit. */
  columns: Readonly<Record<string, { column: string | number; unit: string }>>
  /** Something was done to the file that no writer does on purpose: its rows may be refused. */
  broken: string | undefined
}

type Pick = <T>(of: readonly T[]) => T

const SEPARATORS = [',', ';', '\t', ' ', '   '] as const
const LINE_ENDS = ['\n', '\r\n', '\r', '\r\r\n'] as const
const ENCODINGS = [
  'utf-8',
  'utf-8 mark',
  'utf-16le',
  'utf-16be',
  'utf-16le bare',
  'utf-16be bare',
  'latin1',
] as const
type Encoding = (typeof ENCODINGS)[number]

/** Lines above the data as recorders write them; invented. */
const PREAMBLES: readonly string[] = [
  'Demo recorder 7',
  'Points;5000',
  'Rate,500',
  '# invented remark',
  'Aufnahme vom 04.03.2026',
  '2026-03-04',
  'Voie A; Voie B',
  '500000',
  '',
  'Größe 5" Rohr',
]

/** Ways to write a figure: as it is, without zeros at the end, with an exponent, a plus, no zero before the sign, groups. */
const FIGURES = [
  'fixed',
  'trimmed',
  'exponent',
  'plus',
  'bare point',
  'grouped',
  'typographic minus',
] as const
type Figure = (typeof FIGURES)[number]

/** Stamps of a clock in milliseconds of the day, as loggers write them. */
const CLOCKS = ['h:m:s', 'iso', 'iso T', 'day first', 'day first, slash', 'm:s'] as const

/** Damage and joins after which rows may be refused, or left out and counted, but never lost in silence. */
const BREAKS = [
  'line ends change',
  'a byte of two is lost',
  'a byte of two too many',
  'damaged first rows',
  'short first rows',
  'the sign changes',
  'the separator changes',
  'cut in a row',
  'figures above the header',
  'commas part and point',
] as const
type Break = (typeof BREAKS)[number]

/** Writes the truth in one of very many ways. */
export function spelled(truth: TableTruth, random: Random): Spelled {
  const pick: Pick = (of) => of[random.integer(of.length)]!
  const often = (oneIn: number): boolean => random.integer(oneIn) === 0
  const separator = pick(SEPARATORS)
  const decimal = pick(['.', ','] as const)
  const drawn = often(3) ? pick(BREAKS) : undefined
  const broken = drawn === 'commas part and point' && separator !== ',' ? undefined : drawn
  const quotes =
    (separator === ',' && decimal === ',' && broken !== 'commas part and point') || often(6)
      ? 'all'
      : pick(['none', 'none', 'header'] as const)
  const lineEnd = pick(LINE_ENDS)
  const encoding = pick(ENCODINGS)
  const header = !often(5)
  const figure = often(2) ? 'fixed' : pick(FIGURES)
  const mark = decimal === '.' ? pick([',', ' ', "'"] as const) : pick(['.', ' ', "'"] as const)
  const bracketed = often(3)
  const unitsRow = header && !bracketed && often(3)
  const how: string[] = [
    JSON.stringify(separator),
    decimal,
    `quotes ${quotes}`,
    JSON.stringify(lineEnd),
    encoding,
    header ? 'header' : 'no header',
    figure,
  ]

  const order = shuffled([...truth.columns, ...extras(truth.rows, random)], random)
  const written = order.map((column) => {
    const { unit, digits } = pick(column.units)
    const name = pick(column.names)
    const clock = column.role === 'time' && unit === 's' && often(4) ? pick(CLOCKS) : undefined
    if (clock) how.push(clock)
    const cells = column.wholes.map((whole) =>
      clock
        ? stamp(whole, digits, { clock, decimal })
        : figureText(whole, digits, {
            figure: column.role === 'time' && figure === 'grouped' ? 'fixed' : figure,
            decimal,
            mark,
          }),
    )
    return { role: column.role, unit, name, cells }
  })
  const quoted = (cell: string): string => `"${cell}"`
  const needsQuotes = (cell: string): boolean =>
    cell.includes(separator) || (separator.trim() === '' && /\s/.test(cell))
  const joined = (cells: readonly string[], mode: 'all' | 'none'): string =>
    cells
      .map((cell) =>
        mode === 'all' || (needsQuotes(cell) && broken !== 'commas part and point') ? quoted(cell) : cell,
      )
      .join(separator) + (trailing ? separator : '')
  const trailing = separator.trim() !== '' && often(8)
  const names = written.map(({ name, unit }) => (bracketed ? `${name} (${unit})` : name))
  const rows = Array.from({ length: truth.rows }, (_, i) =>
    joined(
      written.map(({ cells }) => cells[i]!),
      quotes === 'all' ? 'all' : 'none',
    ),
  )
  const above = Array.from({ length: often(2) ? 0 : random.integer(5) }, () => pick(PREAMBLES))
  if (separator.trim() !== '' && often(10)) above.unshift(`sep=${separator}`)
  if (broken) how.push(`broken: ${broken}`)
  if (broken === 'figures above the header') above.push(...rows.splice(0, 1 + random.integer(8)))
  const nameRow = header ? [joined(names, quotes === 'none' ? 'none' : 'all')] : []
  const unitRow = unitsRow
    ? [
        joined(
          written.map(({ unit }) => unit),
          'none',
        ),
      ]
    : []
  if (broken === 'damaged first rows') damage(rows, { random, separator, columns: written.length })
  if (broken === 'short first rows')
    for (let i = random.integer(9); i >= 0; i--)
      rows[i] = rows[i]!.split(separator).slice(0, -1).join(separator)
  if (broken === 'the sign changes')
    for (let i = 1 + random.integer(rows.length - 1); i < rows.length; i++)
      rows[i] = rows[i]!.replaceAll(decimal, decimal === '.' ? ',' : '.')
  if (broken === 'the separator changes')
    for (let i = 1 + random.integer(rows.length - 1); i < rows.length; i++)
      rows[i] = rows[i]!.replaceAll(separator, separator === ';' ? '\t' : ';')
  const lines = [...above, ...nameRow, ...unitRow, ...rows]
  if (often(8))
    lines.splice(
      above.length + nameRow.length + unitRow.length + 1 + random.integer(rows.length),
      0,
      pick(['', '  ', '# a remark among the rows']),
    )
  const bytes = inBytes(lines, { lineEnd, encoding, ended: !often(4), broken, random })
  return {
    bytes: often(10) ? gzipSync(bytes) : bytes,
    how: `${how.join(' ')}; ${written.map(({ role, unit }) => `${role} ${unit}`).join(', ')}`,
    columns: Object.fromEntries(
      written.map(({ role, unit }, i) => [role, { column: header ? names[i]! : i + 1, unit }]),
    ),
    broken,
  }
}

/** Columns nobody asks for: an index, words, nothing. */
function extras(rows: number, random: Random): ColumnTruth[] {
  const plain = [{ unit: '', digits: 0 }]
  const all: ColumnTruth[] = [
    {
      role: 'index',
      names: ['Nr', 'no.'],
      units: plain,
      wholes: Array.from({ length: rows }, (_, i) => i + 1),
    },
    {
      role: 'other',
      names: ['battery', 'Bordnetz', 'tension à bord'],
      units: [{ unit: 'V', digits: 2 }],
      wholes: Array.from({ length: rows }, () => 1380 + random.integer(20)),
    },
  ]
  return all.filter(() => random.integer(4) === 0)
}

function shuffled<T>(of: readonly T[], random: Random): T[] {
  const left = [...of]
  return of.map(() => left.splice(random.integer(left.length), 1)[0]!)
}

function decimals(whole: number, digits: number, decimal: string): string {
  const text = String(Math.abs(whole)).padStart(digits + 1, '0')
  return digits === 0 ? text : `${text.slice(0, -digits)}${decimal}${text.slice(-digits)}`
}

/** @param digits  behind the decimal sign; below zero: zeros to add */
function figureText(
  whole: number,
  digits: number,
  { figure, decimal, mark }: { figure: Figure; decimal: string; mark: string },
): string {
  const sign = whole < 0 ? '-' : ''
  const plain = decimals(digits < 0 ? whole * 10 ** -digits : whole, Math.max(0, digits), decimal)
  const [before = '', after] = plain.split(decimal)
  const behind = after === undefined ? '' : `${decimal}${after}`
  switch (figure) {
    case 'fixed':
      return sign + plain
    case 'trimmed':
      return sign + (after === undefined ? plain : plain.replace(/0+$/, '').replace(/[.,]$/, ''))
    case 'plus':
      return (sign || '+') + plain
    case 'bare point':
      return sign + (before === '0' && after !== undefined ? behind : plain)
    case 'grouped':
      return sign + before.replace(/\B(?=(?:\d{3})+$)/g, mark) + behind
    case 'typographic minus':
      return sign.replace('-', '\u2212') + plain
    case 'exponent': {
      const [m = '', e = ''] = (Number(`${before}.${after ?? ''}`) || 0).toExponential(8).split('e')
      return `${sign}${m.replace('.', decimal)}E${e}`
    }
  }
}

/** A time of day, from 9:12 on. @param digits  of the second in `whole` */
function stamp(
  whole: number,
  digits: number,
  { clock, decimal }: { clock: (typeof CLOCKS)[number]; decimal: string },
): string {
  const seconds = Math.floor(whole / 10 ** digits)
  const part = `${decimal}${String(whole % 10 ** digits).padStart(digits, '0')}`
  const two = (n: number): string => String(n).padStart(2, '0')
  const [s, m, h] = [two(seconds % 60), 12 + Math.floor(seconds / 60), 9]
  const day = `${two(h)}:${two(m)}:${s}${part}`
  if (clock === 'm:s') return `${m}:${s}${part}`
  return {
    'h:m:s': day,
    iso: `2026-03-04 ${day}`,
    'iso T': `2026-03-04T${day}`,
    'day first': `04.03.2026 ${day}`,
    'day first, slash': `04/03/2026 ${day}`,
  }[clock]
}

function damage(
  rows: string[],
  { random, separator, columns }: { random: Random; separator: string; columns: number },
): void {
  for (let i = random.integer(12); i >= 0; i--) {
    const cells = rows[i]!.split(separator)
    cells[random.integer(Math.min(columns, cells.length))] = ['ERR', '---', 'x1', '?'][random.integer(4)]!
    rows[i] = cells.join(separator)
  }
}

function inBytes(
  lines: readonly string[],
  {
    lineEnd,
    encoding,
    ended,
    broken,
    random,
  }: { lineEnd: string; encoding: Encoding; ended: boolean; broken: Break | undefined; random: Random },
): Buffer {
  const at = 1 + random.integer(lines.length - 1)
  const other = LINE_ENDS[random.integer(LINE_ENDS.length)]!
  const text = lines
    .map((line, i) =>
      i === lines.length - 1 && !ended
        ? line
        : line + (broken === 'line ends change' && i >= at ? other : lineEnd),
    )
    .join('')
  const bytes = encoded(text, encoding)
  const half = Math.floor(bytes.length / 2 + random.integer(Math.floor(bytes.length / 2)))
  if (broken === 'cut in a row') return bytes.subarray(0, bytes.length - 1 - random.integer(4))
  if (!encoding.startsWith('utf-16')) return bytes
  if (broken === 'a byte of two is lost')
    return Buffer.concat([bytes.subarray(0, half), bytes.subarray(half + 1)])
  if (broken === 'a byte of two too many')
    return Buffer.concat([bytes.subarray(0, half), Buffer.of(0x20), bytes.subarray(half)])
  return bytes
}

function encoded(text: string, encoding: Encoding): Buffer {
  const mark = encoding.endsWith('bare') ? '' : '\ufeff'
  switch (encoding) {
    case 'utf-8':
      return Buffer.from(text)
    case 'utf-8 mark':
      return Buffer.from(`\ufeff${text}`)
    case 'latin1':
      return Buffer.from(text.replaceAll('\u2212', '-'), 'latin1')
    case 'utf-16le':
    case 'utf-16le bare':
      return Buffer.from(mark + text, 'utf16le')
    case 'utf-16be':
    case 'utf-16be bare':
      return Buffer.from(mark + text, 'utf16le').swap16()
  }
}
