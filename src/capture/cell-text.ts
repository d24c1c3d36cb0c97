/** What a cell's text is: a figure, a time of day, nothing, or words. */
export type CellClass = 'number' | 'clock' | 'empty' | 'text'

/** The signs numbers are written with. `thousands` is '' where none is used. */
export interface NumberStyle {
  decimal: '.' | ','
  thousands: '' | '.' | ',' | ' ' | "'"
}

const PLAIN = /^[-+]?(?:\d+[.,]?\d*|[.,]\d+)(?:[eE][-+]?\d+)?$/
/** Digits in groups of three by a mark, with or without a decimal sign after them. */
const GROUPED = /^[-+]?[1-9]\d{0,2}(?:([.,' ])\d{3})(?:\1\d{3})*(?:(?!\1)[.,]\d*)?$/
/** A raw count in hex, as some recorders write it. */
const HEX = /^0x[0-9a-f]{1,8}$/i
/** Minutes and seconds, or hours, minutes and seconds, with a date before them or without, and a zone behind. */
const CLOCK =
  /^(?:\d{1,3}|(?:(?:\d{4}[-/.]\d{1,2}[-/.]\d{1,2}|\d{1,2}[-/.]\d{1,2}[-/.]\d{4})[T ] *)?\d{1,2}:\d{2}):\d{2}(?:[.,]\d+)?(?: ?(?:Z|[-+]\d{2}:?\d{2}))?$/
/** Blanks that group digits in print (no-break, thin, narrow no-break), the typographic apostrophe and minus sign. */
const BLANKS = /[\u00a0\u2009\u202f]/g

/** Whether any of these is there at all: most cells have none, and a long file has many cells. */
const TYPOGRAPHIC = /[\u00a0\u2009\u202f\u2019\u2212]/

/** The cell with typographic blanks, apostrophe and minus put as their plain keys, trimmed. */
export function plainCell(cell: string): string {
  if (!TYPOGRAPHIC.test(cell)) return cell.trim()
  return cell.replace(BLANKS, ' ').replaceAll('\u2019', "'").replaceAll('\u2212', '-').trim()
}

/** Class of a trimmed cell, whatever signs it uses; a comma counts as a sign of numbers wherever it can stand in a cell. */
export function classOf(cell: string): CellClass {
  if (cell === '') return 'empty'
  if (PLAIN.test(cell) || GROUPED.test(cell) || HEX.test(cell)) return 'number'
  return CLOCK.test(cell) ? 'clock' : 'text'
}

/** The mark that groups the digits of a trimmed cell in threes, if one does; it may be a decimal sign as well. */
export const groupMarkOf = (cell: string): string | undefined => GROUPED.exec(cell)?.[1]

/**
 * The figure a trimmed cell stands for, or undefined when it is none in this style.
 * A mark other than the style's is accepted only beside a decimal sign, where it can be nothing else: 1,234.5.
 */
export function numberOf(cell: string, style: NumberStyle): number | undefined {
  const group = groupMarkOf(cell)
  let digits = cell
  if (group !== undefined && group !== style.decimal) {
    const certain =
      group === style.thousands || cell.includes(style.decimal) || group === "'" || group === ' '
    if (!certain) return undefined
    digits = cell.replaceAll(group, '')
  }
  if (!PLAIN.test(digits)) return HEX.test(digits) ? Number(digits) : undefined
  if (style.decimal === ',') return digits.includes('.') ? undefined : Number(digits.replace(',', '.'))
  return digits.includes(',') ? undefined : Number(digits)
}

/**
 * Seconds since midnight of a time of day `h:mm:ss` or `h:mm:ss.fff`, or those of `m:ss`; undefined for anything else.
 * Two parts are minutes and seconds, as loggers count from their start: hours and minutes could not time an engine.
 * A date is passed over, whichever way round it is written: a recording asks only how far its rows are apart.
 */
export function clockSeconds(cell: string): number | undefined {
  if (!CLOCK.test(cell)) return undefined
  const parts = withoutZone(cell).replace(',', '.').split(/[T ]+/).at(-1)!.split(':')
  return parts.reduce((seconds, part) => seconds * 60 + Number(part), 0)
}

/** A time of day without the zone behind it, which is one for the whole recording. */
const withoutZone = (cell: string): string => cell.replace(/(?<=:.*) ?(?:Z|[-+]\d{2}:?\d{2})$/, '')

/** Power of ten of the last digit written: -3 for 0.010, 0 for 12, -5 for 1.20e-3. */
export function lastDigitExponent(cell: string, decimal: '.' | ','): number {
  if (HEX.test(cell)) return 0
  const [mantissa = '', exponent = '0'] = (cell.includes(':') ? withoutZone(cell) : cell)
    .toLowerCase()
    .split('e')
  const at = mantissa.lastIndexOf(decimal)
  return Number(exponent) - (at < 0 ? 0 : mantissa.length - at - 1)
}
