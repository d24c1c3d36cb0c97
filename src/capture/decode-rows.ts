/** 10^0 ... 10^22: the powers of ten a double holds exactly. */
const POW10 = Float64Array.from({ length: 23 }, (_, power) => Number(`1e${power}`))
/** Below here every whole number is held exactly; here itself 2^53 + 1 would round to it unseen. */
const EXACT_WHOLE = 2 ** 53
/** Figures from here on are no measured values but marks of a recorder; they are looked at as text. */
const HUGE = 1e30
/** Digits whose number fits 31 bits whatever they are. */
const INT_DIGITS = 9

const BLANK = 32
const QUOTE = 34
const MINUS = 45
const PLUS = 43
const CR = 13
/** `x` of a count in hex, whatever its capitals. */
const X = 120
/** In `wanted`. */
export const BARE_HEX = 2
/** Digits of a count in hex; eight are all of 32 bits. */
const HEX_DIGITS = 8

/** What a row looks like in bytes. */
export interface RowPlan {
  separator: number
  decimal: number
  lineEnd: number
  columns: number
  /** 1 for a column to decode, 2 for one of bare hex, 0 for one to skip; shape (columns). */
  wanted: Uint8Array
  /** Number of columns to decode. */
  width: number
}

/** Decoded rows waiting to be taken. */
export interface Batch {
  rows: number
  /** Decoded figures as in the file, row by row; shape (capacity x width), columns in file order. */
  values: Float64Array
  /** Power of ten of the last digit written, same shape. */
  exponents: Int8Array
  /** 1-based line of each row; shape (capacity). */
  lines: Int32Array
  /** Line of the next row to decode. */
  line: number
  /** Figure and last-digit exponent of a long figure on its way from `plainNumber` to its place. */
  readonly passed: Float64Array
}

/** An empty batch for rows of `width` figures. */
export function newBatch(capacity: number, width: number): Batch {
  return {
    rows: 0,
    line: 1,
    values: new Float64Array(capacity * width),
    exponents: new Int8Array(capacity * width),
    lines: new Int32Array(capacity),
    passed: new Float64Array(2),
  }
}

/**
 * Decodes plain rows from `from` on until `to`, until the batch is full, or until a row that needs a closer look.
 * `bytes[to - 1]` must be a line end: every inner loop stops at one, so none checks for the end.
 * A figure of up to nine digits with up to nine decimals is m / 10^k, both exact, so that one rounding division
 * gives the double nearest to the text (Clinger 1990); longer ones and exponents go through `plainNumber`.
 * @returns  where it stopped: a row's first byte, or `to`
 */
export function decodeRows(
  bytes: Uint8Array,
  span: { from: number; to: number },
  plan: RowPlan,
  batch: Batch,
): number {
  const { separator, decimal, lineEnd, wanted, width } = plan
  const last = plan.columns - 1
  const { values, exponents, lines, passed } = batch
  const capacity = lines.length
  const blanksPart = separator === BLANK
  const { to } = span
  let n = batch.rows
  let k = n * width
  let line = batch.line
  let p = span.from
  let rowStart = p
  rows: while (p < to && n < capacity) {
    rowStart = p
    let c = bytes[p]!
    for (let column = 0; ; column++) {
      if (wanted[column] === 1) {
        while (c === BLANK) c = bytes[++p]!
        const start = p
        const negative = c === MINUS
        if (negative) c = bytes[++p]!
        let from = p
        let m = 0
        let d = 0
        while ((d = c ^ 48) < 10) {
          m = (Math.imul(m, 10) + d) | 0
          c = bytes[++p]!
        }
        let digits = p - from
        let places = 0
        if (c === decimal) {
          c = bytes[++p]!
          from = p
          while ((d = c ^ 48) < 10) {
            m = (Math.imul(m, 10) + d) | 0
            c = bytes[++p]!
          }
          places = p - from
          digits += places
        }
        if (digits === 0 || digits > INT_DIGITS || (c | 32) === 101 || (c | 32) === X) {
          if (c === QUOTE && decimal === separator) break rows // a figure beside it may have no marks
          p = plainNumber(bytes, { start, decimal }, passed)
          if (p < 0) break rows
          c = bytes[p]!
          values[k] = passed[0]!
          exponents[k] = passed[1]!
        } else {
          const value = places === 0 ? m : m / POW10[places]!
          values[k] = negative ? -value : value
          exponents[k] = -places
        }
        k++
      } else if (wanted[column] === BARE_HEX) {
        while (c === BLANK) c = bytes[++p]!
        p = hexCount(bytes, p, passed)
        if (p < 0) break rows
        c = bytes[p]!
        values[k] = passed[0]!
        exponents[k] = 0
        k++
      } else {
        if (blanksPart) while (c === BLANK) c = bytes[++p]!
        if (c === QUOTE) {
          do c = bytes[++p]!
          while (c !== QUOTE && c !== lineEnd)
          if (c === lineEnd) break rows
          c = bytes[++p]!
        }
        if (c === QUOTE || (column === 0 && (c === 35 || c === 37 || c === 47))) break rows // a remark: # % //
        while (c !== separator && c !== lineEnd) c = bytes[++p]!
      }
      if (column < last) {
        if (c !== separator) {
          while (c === BLANK) c = bytes[++p]!
          if (c !== separator) break rows
        }
        c = bytes[++p]!
      } else {
        if (c !== lineEnd) {
          while (c === BLANK) c = bytes[++p]!
          if (c === separator) c = bytes[++p]!
          while (c === CR && c !== lineEnd) c = bytes[++p]!
          if (c !== lineEnd) break rows
        }
        break
      }
    }
    p++
    lines[n++] = line++
    rowStart = p
  }
  batch.rows = n
  batch.line = line
  return rowStart
}

/**
 * A figure with sign, up to fifteen or so digits, and exponent; exact by the same argument as above, or declined. Also a
 * count in hex.
 * @param passed  receives the figure and the power of ten of its last digit
 * @returns  index of the byte after it, or -1 when it is not such a figure (it may still be a number in words or quotes)
 */
export function plainNumber(
  bytes: Uint8Array,
  { start, decimal }: { start: number; decimal: number },
  passed: Float64Array,
): number {
  if (bytes[start] === QUOTE) return quotedNumber(bytes, { start, decimal }, passed)
  let p = start
  let c = bytes[p]!
  const negative = c === MINUS
  if (negative || c === PLUS) c = bytes[++p]!
  let m = 0
  let d = 0
  let from = p
  while ((d = c ^ 48) < 10) {
    m = m * 10 + d
    c = bytes[++p]!
  }
  let digits = p - from
  if ((c | 32) === X && digits === 1 && m === 0 && from === start) return hexCount(bytes, p + 1, passed)
  let places = 0
  if (c === decimal) {
    c = bytes[++p]!
    from = p
    while ((d = c ^ 48) < 10) {
      m = m * 10 + d
      c = bytes[++p]!
    }
    places = p - from
    digits += places
  }
  if (digits === 0 || m >= EXACT_WHOLE) return -1
  let exponent = 0
  if ((c | 32) === 101) {
    c = bytes[++p]!
    const down = c === MINUS
    if (down || c === PLUS) c = bytes[++p]!
    from = p
    while ((d = c ^ 48) < 10) {
      exponent = exponent * 10 + d
      c = bytes[++p]!
    }
    if (p === from || p - from > 4) return -1
    if (down) exponent = -exponent
  }
  exponent -= places
  if (exponent > 22 || exponent < -22) return -1
  const value = exponent < 0 ? m / POW10[-exponent]! : m * POW10[exponent]!
  if (value >= HUGE) return -1
  passed[0] = negative ? -value : value
  passed[1] = exponent
  return p
}

/** A figure in quotation marks. */
function quotedNumber(
  bytes: Uint8Array,
  { start, decimal }: { start: number; decimal: number },
  passed: Float64Array,
): number {
  if (bytes[start + 1] === QUOTE) return -1
  const end = plainNumber(bytes, { start: start + 1, decimal }, passed)
  return end >= 0 && bytes[end] === QUOTE ? end + 1 : -1
}

/** A count in hex behind its `0x`. @returns as `plainNumber` */
function hexCount(bytes: Uint8Array, from: number, passed: Float64Array): number {
  let p = from
  let m = 0
  for (; ; p++) {
    const c = bytes[p]!
    const digit = c ^ 48
    const letter = (c | 32) - 97
    if (digit < 10) m = m * 16 + digit
    else if (letter >= 0 && letter < 6) m = m * 16 + letter + 10
    else break
  }
  if (p === from || p - from > HEX_DIGITS) return -1
  passed[0] = m
  passed[1] = 0
  return p
}
