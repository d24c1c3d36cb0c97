import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { inspectJob } from '../../../src/job/inspect-job.ts'
import { loadLimits } from '../../../src/limits/limits.ts'
import { JobError, type Problem } from '../../../src/problems/problem.ts'
import type { TestFinding } from '../../../src/test-log/findings.ts'
import { readTests } from '../../../src/test-log/read-tests.ts'
import type { Random } from '../../../src/maths/random.ts'
import { exampleFolder } from './example-job.ts'
import { Finding } from './outcome.ts'
import type { FuzzReader } from './reader.ts'

/** A log with a row of every kind of figure; invented. */
const COLUMNS = [
  'at',
  'step',
  'place',
  'stage',
  'condition',
  'reading',
  'value',
  'unit',
  'expected_low',
  'expected_high',
  'outcome',
  'note',
]
const FIGURES = new Set(['value', 'expected_low', 'expected_high'])
const ROWS: readonly (readonly string[])[] = [
  ['2026-03-04T09:20', 'trim', '', '', 'idle', 'STFT1', '-1.6', '%', '', '', '', ''],
  ['2026-03-04T09:20', 'trim', '', '', 'idle', 'LTFT1', '12.5', '%', '', '', '', 'steady, warm'],
  [
    '2026-03-04T09:30',
    'spray',
    'intake joint',
    '',
    'idle',
    'propane',
    '',
    '',
    '',
    '',
    'response',
    'it "caught"',
  ],
  ['2026-03-04T09:41', 'gas', '', 'after', 'idle', 'CO', '0.4', '%vol', '0', '0.5', '', ''],
  ['2026-03-04T09:41', 'gas', '', 'after', 'idle', 'O2', '0.9', '%vol', '', '', '', ''],
  [
    '2026-03-04T09:42',
    'fuel-pressure',
    '',
    '',
    '',
    'key-on',
    '350.5',
    'kPa',
    '330',
    '370.5',
    '',
    'Prüfung; größer',
  ],
  ['2026-03-04T09:43', 'vacuum', '', '', 'idle', 'manifold', '18', 'inHg', '', '', '', ''],
  ['2026-03-04T09:44', 'compression', '', '', '', 'cylinder 3', '148', 'psi', '130', '', '', ''],
  ['2026-03-04T09:45', 'code', '', '', '', 'P0171', '', '', '', '', '', ''],
  ['2026-03-04T09:46', 'airflow', '', '', 'idle', 'MAF', '3.1', 'g/s', '', '', '', ''],
  ['2026-03-04T09:47', 'smoke', 'intake joint', '', '', '', '', '', '', '', 'leak', ''],
  ['2026-03-04T09:50', 'repair', 'intake joint', '', '', '', '', '', '', '', 'fixed', 'new gasket'],
]
const BREAKS = [
  'line ends change',
  'the separator changes',
  'the sign changes',
  'nothing quoted',
  'UTF-16',
  'names in another language',
  'rows above the header',
  'a quotation mark left open',
  'cells left out',
] as const
const GERMAN: Readonly<Record<string, string>> = {
  at: 'Zeitpunkt',
  step: 'Schritt',
  value: 'Wert',
  unit: 'Einheit',
  outcome: 'Ergebnis',
}

/** One test log in every way a spreadsheet may write it: the same tests and figures, or a code. */
export function spelledLogReader(folder: string): FuzzReader {
  exampleFolder(folder)
  const limits = loadLimits()
  let right: string | undefined
  const testsOf = async (bytes: Buffer): Promise<{ tests: string; problems: readonly Problem[] }> => {
    writeFileSync(join(folder, 'test-log.csv'), bytes)
    const { job, log, problems } = await inspectJob(folder)
    if (job === undefined || problems.some((p) => p.severity === 'refuse')) throw new JobError(problems)
    const read = readTests({ log, traces: new Map(), job, limits })
    if (read.problems.some((p) => p.severity === 'refuse')) throw new JobError(read.problems)
    return { tests: plain(read.tests), problems: [...problems, ...read.problems] }
  }
  return {
    name: 'spelled-log',
    draw: (random) => {
      const { bytes, how } = spelledLog(random)
      return {
        seed: how,
        bytes,
        read: async () => {
          right ??= (
            await testsOf(
              Buffer.from(
                [COLUMNS, ...ROWS]
                  .map((row) => row.map((cell) => `"${cell.replaceAll('"', '""')}"`).join(','))
                  .join('\n') + '\n',
              ),
            )
          ).tests
          const { tests, problems } = await testsOf(bytes)
          // A row that is told of as longer than the others may have its cells moved: its line is named.
          if (tests !== right && !problems.some((p) => p.code === 'ragged-row'))
            throw new Finding(`other tests: ${firstDifference(right, tests)}`)
          return problems
        },
      }
    },
  }
}

/** Tests without what the writing may change: line numbers, and seconds of zero. */
const plain = (tests: readonly TestFinding[]): string =>
  JSON.stringify(
    tests,
    (key, value: unknown) => (key === 'line' || key === 'lines' ? undefined : value),
    1,
  ).replace(/(T\d\d:\d\d):00"/g, '$1"')

function firstDifference(right: string, found: string): string {
  const lines = found.split('\n')
  const at = right.split('\n').findIndex((line, i) => line !== lines[i])
  return `${right.split('\n')[at]} | ${lines[at]}`
}

function spelledLog(random: Random): { bytes: Buffer; how: string } {
  const pick = <T>(of: readonly T[]): T => of[random.integer(of.length)]!
  const often = (oneIn: number): boolean => random.integer(oneIn) === 0
  const broken = often(3) ? pick(BREAKS) : undefined
  const [separator, decimal, lineEnd] = [
    pick([',', ';', '\t'] as const),
    pick(['.', ','] as const),
    pick(['\n', '\r\n', '\r'] as const),
  ]
  const [all, mark, seconds, digits, capitals] = [
    often(4),
    often(2),
    often(2),
    pick(['fixed', 'more noughts', 'plus', 'typographic minus', 'padded'] as const),
    pick(['small', 'Large', 'LARGE'] as const),
  ]
  const left = [...COLUMNS]
  const order = COLUMNS.map(() => left.splice(often(2) ? 0 : random.integer(left.length), 1)[0]!)
  const figure = (text: string): string => {
    const signed =
      digits === 'plus' && !text.startsWith('-')
        ? `+${text}`
        : digits === 'typographic minus'
          ? text.replace('-', '\u2212')
          : text
    const long = digits === 'more noughts' && signed.includes('.') ? `${signed}00` : signed
    return digits === 'padded' ? ` ${long.replace('.', decimal)} ` : long.replace('.', decimal)
  }
  const written = (row: readonly string[]): string[] =>
    order.map((name) => {
      const cell = row[COLUMNS.indexOf(name)]!
      if (cell !== '' && FIGURES.has(name)) return figure(cell)
      return name === 'at' && seconds ? `${cell}:00` : cell
    })
  const joined = (cells: readonly string[]): string =>
    cells
      .map((cell) => {
        const needs = cell.includes(separator) || cell.includes('"')
        return (needs || all) && broken !== 'nothing quoted' ? `"${cell.replaceAll('"', '""')}"` : cell
      })
      .join(separator)
  const names = order.map((name) => {
    const said = broken === 'names in another language' ? (GERMAN[name] ?? name) : name
    return capitals === 'small'
      ? said
      : capitals === 'LARGE'
        ? said.toUpperCase()
        : said.charAt(0).toUpperCase() + said.slice(1)
  })
  const at = 2 + random.integer(ROWS.length - 1)
  const lines = [joined(names), ...ROWS.map((row) => joined(written(row)))]
  if (often(5))
    lines.splice(1 + random.integer(lines.length), 0, pick(['', separator.repeat(COLUMNS.length - 1)]))
  if (often(6)) lines.forEach((line, i) => (lines[i] = line + separator))
  for (let i = at; i < lines.length; i++) {
    if (broken === 'the separator changes')
      lines[i] = lines[i]!.replaceAll(separator, separator === ';' ? ',' : ';')
    if (broken === 'the sign changes')
      lines[i] = lines[i]!.replace(
        /(\d)[.,](\d)/g,
        (_, a: string, b: string) => `${a}${decimal === '.' ? ',' : '.'}${b}`,
      )
    if (broken === 'cells left out')
      lines[i] = lines[i]!.split(separator)
        .slice(0, -1 - random.integer(3))
        .join(separator)
  }
  if (broken === 'rows above the header') lines.unshift(...lines.splice(1, 1 + random.integer(3)))
  if (broken === 'a quotation mark left open') lines[at] = lines[at]!.replace(separator, `${separator}"`)
  const other = pick(['\n', '\r\n', '\r', '\u2028', '\u0085', '\v'] as const)
  const text = lines
    .map(
      (line, i) =>
        line +
        (broken === 'line ends change' && i >= at
          ? other
          : i === lines.length - 1 && often(3)
            ? ''
            : lineEnd),
    )
    .join('')
  const marked = Buffer.from((mark ? '\ufeff' : '') + text)
  const bytes = broken === 'UTF-16' ? Buffer.from(`\ufeff${text}`, 'utf16le') : marked
  return {
    bytes,
    how: [
      JSON.stringify(separator),
      decimal,
      JSON.stringify(lineEnd),
      digits,
      capitals,
      all ? 'all quoted' : '',
      broken ? `broken: ${broken}` : '',
    ]
      .filter(Boolean)
      .join(' '),
  }
}
