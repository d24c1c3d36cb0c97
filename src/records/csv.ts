import Papa from 'papaparse'

export type Cell = string | number | null

/** Decimals by rounding once, as a number, so that a spreadsheet and a program read the same figure. */
export const rounded = (value: number | undefined, decimals: number): number | null =>
  value === undefined ? null : Number(value.toFixed(decimals)) || 0

/** What a spreadsheet takes for a formula: some read full-width signs as the plain ones. */
const FORMULA = /^[=+\-@\t\r\uff1d\uff0b\uff0d\uff20]/

/**
 * RFC 4180 text: CRLF, header row, empty field for an absent figure. Text that a spreadsheet would run
 * (= + - @, their full-width forms, tab, return) is written with an apostrophe before it; numbers are left alone.
 */
export function toCsv(columns: readonly string[], rows: readonly (readonly Cell[])[]): string {
  const body = Papa.unparse(
    { fields: [...columns], data: rows as Cell[][] },
    { newline: '\r\n', escapeFormulae: FORMULA },
  )
  return `${body}\r\n`
}
