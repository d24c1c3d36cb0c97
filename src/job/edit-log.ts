import Papa from 'papaparse'
import { columnsMeant } from './column-words.ts'
import { KNOWN_COLUMNS, type LogColumn } from './log-steps.ts'
import { LOG_FILE } from './own-files.ts'
import { logTable } from './log-table.ts'

/** Header of a log that has no rows yet. */
export const LOG_HEAD = `${KNOWN_COLUMNS.join(',')}\n`

type Cells = Partial<Record<LogColumn, string>>
const FIGURES: readonly string[] = ['value', 'expected_low', 'expected_high', 'from_s', 'to_s']

/** A whole log of these rows; columns left out of a row are empty. */
export const logText = (rows: readonly Partial<Record<LogColumn, string | number>>[]): string =>
  `${LOG_HEAD}${Papa.unparse(
    rows.map((row) => KNOWN_COLUMNS.map((column) => row[column] ?? '')),
    { newline: '\n' },
  )}\n`

/** How a log is written: its separator, line end and decimal sign, and the names of its columns as they stand. */
function styleOf(text: string) {
  const { rows } = logTable(LOG_FILE, text)
  const header = rows[0]?.cells ?? []
  const names = columnsMeant(header)
  const head = text.split(/\r\n?|\n/).find((line) => line.trim() !== '') ?? ''
  const counts = [',', ';', '\t'].map((sign) => head.split(sign).length)
  const separator = [',', ';', '\t'][counts.indexOf(Math.max(...counts))]!
  const figures = rows
    .slice(1)
    .flatMap(({ cells }) => FIGURES.map((name) => cells[names.indexOf(name)] ?? ''))
  const comma =
    figures.some((cell) => /^[-+]?\d+,\d+$/.test(cell.trim())) && !figures.some((cell) => cell.includes('.'))
  return { rows, header, names, separator, comma, end: text.includes('\r\n') ? '\r\n' : '\n' }
}

/**
 * The text of a log with rows more at its end, in the way the log is written. What stands in it stays as it is, unless a
 * column is missing that the new rows need: then that column is added to all.
 */
export function withRows(text: string, rows: readonly Cells[]): string {
  const whole = text.trim() === '' ? LOG_HEAD : text
  const style = styleOf(whole)
  const needed = KNOWN_COLUMNS.filter((column) => rows.some((row) => row[column] !== undefined))
  const missing = needed.filter((column) => !style.names.includes(column))
  const write = (lines: readonly (readonly string[])[]): string =>
    `${Papa.unparse(lines as string[][], { delimiter: style.separator, newline: style.end })}${style.end}`
  const names = [...style.names, ...missing]
  const added = write(
    rows.map((row) =>
      names.map((name) => {
        const cell = row[name as keyof Cells] ?? ''
        return style.comma && FIGURES.includes(name) ? cell.replace('.', ',') : cell
      }),
    ),
  )
  if (missing.length > 0) {
    const before = style.rows.map(({ cells }, i) => [
      ...Array.from({ length: style.header.length }, (_, at) => cells[at] ?? ''),
      ...missing.map((name) => (i === 0 ? name : '')),
    ])
    return write(before) + added
  }
  return `${whole}${whole.endsWith('\n') || whole.endsWith('\r') ? '' : style.end}${added}`
}

/** The text without the rows of its last test (those with its time and step), and those rows; undefined where it has none. */
export function withoutLast(
  text: string,
): { text: string; rows: readonly (readonly string[])[] } | undefined {
  const { rows, names } = styleOf(text)
  const [at, step] = [names.indexOf('at'), names.indexOf('step')]
  const last = rows.at(-1)
  if (rows.length < 2 || last === undefined) return undefined
  let from = rows.length - 1
  const alike = (cells: readonly string[]) => cells[at] === last.cells[at] && cells[step] === last.cells[step]
  while (from > 1 && alike(rows[from - 1]!.cells)) from--
  const lines = text.split(/(?<=\r\n|\n|\r(?!\n))/)
  return {
    text: lines.slice(0, rows[from]!.line - 1).join(''),
    rows: rows.slice(from).map(({ cells }) => cells),
  }
}
