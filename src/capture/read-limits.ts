/** How much of a capture file is read at most. A file beyond a limit is refused with a code, never cut silently. */
export interface ReadLimits {
  /** Bytes of text after unpacking: bounds the work a small compressed file can cause. */
  textBytes: number
  /** Data rows: bounds memory, 4 bytes a row and channel. */
  rows: number
  /** Cells in a row. */
  columns: number
  /** Bytes of one line. */
  lineBytes: number
  /** Bytes searched for the first data row. */
  headBytes: number
}

/** Wide enough for minutes of a fast recorder, narrow enough for a workshop computer. */
export const DEFAULT_READ_LIMITS: ReadLimits = {
  textBytes: 2 ** 31,
  rows: 60_000_000,
  columns: 1024,
  lineBytes: 2 ** 20,
  headBytes: 4 * 2 ** 20,
}
