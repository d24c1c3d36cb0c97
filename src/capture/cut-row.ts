import { withoutEnd } from '../problems/without-end.ts'
import type { RowPlan } from './decode-rows.ts'

/** The form of a figure's text, as far as it tells whether the end is missing. */
interface Form {
  decimals: number
  exponentDigits: number
}

/**
 * Whether a last row without line end may have lost its end. A recorder that was unplugged stops in the middle of a
 * figure: `12.3` of `12.345` is a figure too, and only its form beside the row before tells. Where the form tells
 * nothing (whole numbers, exponents of changing length) the row counts as cut: one row less harms nobody.
 */
export function mayBeCut(row: Uint8Array, before: Uint8Array, plan: RowPlan): boolean {
  const last = lastCell(row, plan.separator)
  const other = lastCell(before, plan.separator)
  const count = (bytes: Uint8Array) => bytes.reduce((sum, byte) => sum + (byte === plan.separator ? 1 : 0), 0)
  if (count(row) !== count(before)) return true
  if (last === '' || last.startsWith('"')) return last !== '' && !/".*"$/.test(last)
  const decimal = String.fromCharCode(plan.decimal)
  const a = formOf(last, decimal)
  const b = formOf(other, decimal)
  if (!a || !b) return true
  const same = a.decimals === b.decimals && a.exponentDigits === b.exponentDigits
  return !same || (a.exponentDigits === 0 ? a.decimals === 0 : a.exponentDigits === 1)
}

/** Whether a row holds nothing but blanks, zeros bytes and end-of-file marks. */
export const isBlank = (row: Uint8Array): boolean => row.every((byte) => byte <= 32)

/** Whether line ends of another kind part the row, those at its end aside. */
export function holdsLineEnd(row: Uint8Array): boolean {
  const last = row.findLastIndex((byte) => byte > 32)
  return row
    .subarray(
      Math.max(
        0,
        row.findIndex((byte) => byte > 32),
      ),
      last + 1,
    )
    .some((byte) => byte === 10 || byte === 13)
}

function lastCell(row: Uint8Array, separator: number): string {
  const stored = Buffer.from(row.buffer, row.byteOffset, row.length).toString('latin1')
  const text = withoutEnd(stored, /[\s\0\u001a]/)
  return text.slice(text.lastIndexOf(String.fromCharCode(separator)) + 1).trim()
}

function formOf(cell: string, decimal: string): Form | undefined {
  const parts = /^[-+]?[\d ']*(?:([.,])(\d*))?(?:[eE][-+]?(\d+))?$/.exec(cell)
  if (!parts || (parts[1] !== undefined && parts[1] !== decimal)) return undefined
  return { decimals: parts[2]?.length ?? 0, exponentDigits: parts[3]?.length ?? 0 }
}
