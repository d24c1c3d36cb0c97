import Papa from 'papaparse'

/** A separator, or 'none' for a file of one column. */
export type Separator = ',' | ';' | '\t' | ' ' | 'none'

/** Starts of a line that holds a remark, not data. */
const COMMENT = /^\s*(?:#|%|\/\/)/

/** What spreadsheets write instead of a figure they cannot show; it begins like a remark and is a damaged cell. */
const SPREADSHEET_ERROR = /^\s*#(?:(?:N\/A|DIV\/0!|[A-Z]+[!?])\s*(?:[,;\t]|$)|#+\s*[,;\t])/i

/** Whether a line carries nothing: blank (also of separators alone) is told apart by the caller, who knows the separator. */
export const isComment = (line: string): boolean => COMMENT.test(line) && !SPREADSHEET_ERROR.test(line)

/** A remark's words without its mark: a header is sometimes written as a remark. */
export const withoutCommentMark = (line: string): string => line.replace(COMMENT, '')

/** How papaparse parts a line at each separator, made once: with quotes by RFC 4180, and with quotation marks taken as they stand. */
const PARSERS = Object.fromEntries(
  [',', ';', '\t', ' '].map((delimiter) => [
    delimiter,
    {
      quoted: new Papa.Parser({ delimiter, newline: '\n' }),
      asItStands: new Papa.Parser({ delimiter, newline: '\n', fastMode: true }),
    },
  ]),
) as Record<Exclude<Separator, 'none'>, { quoted: Papa.Parser; asItStands: Papa.Parser }>

/**
 * The cells of one line, trimmed, as papaparse reads them; a run of blanks parts two cells where the blank is the
 * separator. Where a quotation mark is not closed it stays in its cell: what the cell held may be cut off, and must not
 * pass for a figure.
 */
export function splitRow(line: string, separator: Separator): string[] {
  // A tab at the start or end parts an empty cell where tabs part cells.
  const text = separator === '\t' ? line.replace(/^[ \r\n]+|[ \r\n]+$/g, '') : line.trim()
  if (separator === 'none') return [unquoted(text)]
  if (text.trim() === '') return ['']
  const { quoted, asItStands } = PARSERS[separator]
  const { data, errors } = quoted.parse(text, 0, false) as Papa.ParseResult<string[]>
  const isTorn = errors.some((error) => error.type === 'Quotes')
  const [row] = isTorn ? (asItStands.parse(text, 0, false) as Papa.ParseResult<string[]>).data : data
  const cells = row!.map((cell) => (isTorn ? unquoted(cell.trim()) : cell.trim()))
  return separator === ' ' ? cells.filter((cell) => cell !== '') : cells
}

const unquoted = (cell: string): string =>
  cell.length >= 2 && cell.startsWith('"') && cell.endsWith('"') ? cell.slice(1, -1).trim() : cell
