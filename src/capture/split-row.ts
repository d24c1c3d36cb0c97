import Papa from 'papaparse'

/** A separator, or 'none' for a file of one column. */
export type Separator = ',' | ';' | '\t' | ' ' | 'none'

/** Starts of a line that holds a remark, not data. */
const COMMENT = /^\s*(?:#|%|\/\/)/

/** What spreadsheets write in the place of a figure they cannot show; it begins like a remark and is a damaged cell. */
const SPREADSHEET_ERROR = /^\s*#(?:(?:N\/A|DIV\/0!|[A-Z]+[!?])\s*(?:[,;\t]|$)|#+\s*[,;\t])/i

/** Whether a line carries nothing: blank (also of separators alone) is told apart by the caller, who knows the separator. */
export const isComment = (line: string): boolean => COMMENT.test(line) && !SPREADSHEET_ERROR.test(line)

/** A remark's words without its mark: a header is sometimes written as a remark. */
export const withoutCommentMark = (line: string): string => line.replace(COMMENT, '')

/**
 * The cells of one line, trimmed. Quoted lines go through the CSV parser (RFC 4180 quoting); a run of blanks
 * parts two cells where the blank is the separator. Where a quotation mark is not closed it stays in its cell: what
 * the cell held may be cut off, and must not pass for a figure.
 */
export function splitRow(line: string, separator: Separator): string[] {
  const text = line.trim() === '' ? '' : line
  if (separator === 'none') return [unquoted(text.trim())]
  if (!text.includes('"')) return parted(text, separator)
  const {
    data: [row = ['']],
    errors,
  } = Papa.parse<string[]>(text.trim(), { delimiter: separator, newline: '\n' })
  if (errors.some((error) => error.type === 'Quotes')) return parted(text, separator).map(unquoted)
  const cells = row.map((cell) => cell.trim())
  return separator === ' ' ? cells.filter((cell) => cell !== '') : cells
}

const parted = (text: string, separator: Exclude<Separator, 'none'>): string[] =>
  separator === ' ' ? text.trim().split(/ +/) : text.split(separator).map((cell) => cell.trim())

const unquoted = (cell: string): string =>
  cell.length >= 2 && cell.startsWith('"') && cell.endsWith('"') ? cell.slice(1, -1).trim() : cell
