import Papa from 'papaparse'

export type Cell = string | number | null

/** Decimals by rounding once, as a number, so that a spreadsheet and a program read the same figure. */
export const rounded = (value: number | undefined, decimals: number): number | null =>
  value === undefined ? null : Number(value.toFixed(decimals)) || 0

/**
 * RFC 4180 text: CRLF, header row, empty field for an absent figure. Text that a spreadsheet would run
 * (= + - @, tab, return) is written with an apostrophe before it; numbers are left alone.
 */
export function toCsv(columns: readonly string[], rows: readonly (readonly Cell[])[]): string {
  const body = Papa.unparse(
    { fields: [...columns], data: rows as Cell[][] },
    { newline: '\r\n', escapeFormulae: true },
  )
  return `${body}\r\n`
}
