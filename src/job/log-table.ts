import Papa from 'papaparse'
import { problem, type Problem } from '../problems/problem.ts'
import { withoutEnd } from '../problems/without-end.ts'
import { excerpt } from './excerpt.ts'

/** One row of the file with the line it begins on. */
export interface TableRow {
  line: number
  cells: readonly string[]
}

const SEPARATORS = [',', ';', '\t'] as const
/** What a spreadsheet writes above a table for itself. */
const SEPARATOR_LINE = /^\ufeff?"?sep=."?\n/i

/**
 * Splits the text of test-log.csv into rows (RFC 4180); rows without any text are left out. Comma, semicolon or tab,
 * as spreadsheets write them: the one that parts the first row into most cells, the comma on a tie.
 */
export function logTable(file: string, text: string): { rows: TableRow[]; problems: Problem[] } {
  const lines = ended(text.replace(/\r\n?/g, '\n')).replace(SEPARATOR_LINE, '\n')
  const separator = separatorOf(lines)
  const { data, errors } = Papa.parse<string[]>(lines, { delimiter: separator, newline: '\n' })
  const rows = numbered(data)
  const problems = errors
    .filter((e) => e.type === 'Quotes')
    .map((e) => {
      const row = rows[e.row ?? rows.length - 1]
      return problem(
        'csv-quotes',
        { file, line: row?.line ?? 1 },
        { found: excerpt(row?.cells.join(separator) ?? '') },
      )
    })
  return { rows: rows.filter(({ cells }) => cells.some((c) => c.trim() !== '')), problems }
}

/** The text without blanks and line ends at its end, but for the tabs that part the last cells of its last row. */
function ended(text: string): string {
  const whole = withoutEnd(text, /[\s\u0085]/) // NEL ends a line too, and is no blank to `trim`
  const tabs = text.slice(whole.length).split('\n', 1)[0]!.replace(/[^\t]/g, '')
  return `${whole}${tabs}\n`
}

function separatorOf(lines: string): string {
  const head = lines.split('\n').find((line) => line.trim() !== '') ?? ''
  const most = Math.max(...SEPARATORS.map((s) => head.split(s).length))
  return SEPARATORS.find((s) => head.split(s).length === most)!
}

/** A quoted cell may hold line ends, so a row may span lines. */
function numbered(data: readonly string[][]): TableRow[] {
  let line = 1
  return data.map((cells) => {
    const row = { line, cells }
    line += 1 + cells.reduce((ends, cell) => ends + cell.split('\n').length - 1, 0)
    return row
  })
}
