import type { Figure } from './messages.ts'

/** Decimal sign and digit group mark by language; never the machine's locale. */
const HABITS: Readonly<Record<string, { decimal: string; group: string }>> = {
  en: { decimal: '.', group: ',' },
  es: { decimal: ',', group: '\u202f' },
  fr: { decimal: ',', group: '\u202f' },
  de: { decimal: ',', group: '\u202f' },
}

/** The language's decimal sign. */
export const decimalSign = (language: string): string => (HABITS[language] ?? HABITS.en!).decimal

/** Decimals shown for a unit where the text asks for none. */
const UNIT_DECIMALS: Readonly<Record<string, number>> = {
  kV: 2,
  'kV/ms': 2,
  ms: 2,
  s: 2,
  '%': 1,
  rpm: 0,
  kHz: 2,
  Hz: 0,
  cycles: 1,
  '1': 2,
  mJ: 1,
  kPa: 1,
  'g/s': 2,
  mm: 1,
  mm2: 1,
  '%vol': 2,
  ppm: 0,
  degC: 0,
  V: 2,
  A: 2,
  lambda: 3,
}

const UNIT_SIGNS: Readonly<Record<string, string>> = {
  '1': '',
  mm2: 'mm²',
  '%vol': '%\u00a0vol',
  degC: '°C',
  lambda: '',
}

/** Units that a language writes in its own way. */
const OWN_SIGNS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  en: { l: 'L' },
  fr: { rpm: 'tr/min' },
  de: { rpm: '1/min' },
}

/** `unit` as printed after a number, with its space; empty for a pure number. */
export function unitSign(unit: string, language: string): string {
  const sign = OWN_SIGNS[language]?.[unit] ?? UNIT_SIGNS[unit] ?? unit
  return sign === '' ? '' : `\u00a0${sign}`
}

/** A number with fixed decimals, a true minus sign and the language's marks. Digits are grouped from 10 000 on. */
export function formatNumber(value: number, decimals: number, language: string): string {
  const { decimal, group } = HABITS[language] ?? HABITS.en!
  const fixed = Math.abs(value).toFixed(decimals)
  const [whole = '0', part] = fixed.split('.')
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, group) : whole
  const negative = value < 0 && Number(fixed) !== 0
  return `${negative ? '\u2212' : ''}${grouped}${part === undefined ? '' : decimal + part}`
}

/** Decimals in use for a unit. */
export const decimalsFor = (unit: string): number => UNIT_DECIMALS[unit] ?? 2

/**
 * One argument of a sentence.
 * Formats: `dN` N decimals; `value` the value of a quantity alone, with unit; `signed` with + or minus;
 * `bare` a quantity's value without unit; `interval` (default for a quantity) "1.52 kV (1.47 to 1.58)" with an en dash between.
 */
export function formatArg(
  arg: Figure | string,
  how: { format: string | undefined; language: string },
): string {
  const { format, language } = how
  if (typeof arg === 'string') return arg
  const asked = format?.match(/^d(\d)$/)?.[1]
  if (typeof arg === 'number') {
    const decimals = asked !== undefined ? Number(asked) : Number.isInteger(arg) ? 0 : 2
    return format === 'signed' ? signed(arg, decimals, language) : formatNumber(arg, decimals, language)
  }
  const decimals = asked !== undefined ? Number(asked) : decimalsFor(arg.unit)
  const number = (v: number) => formatNumber(v, decimals, language)
  if (format === 'bare') return number(arg.value)
  if (format === 'signed') return signed(arg.value, decimals, language) + unitSign(arg.unit, language)
  if (format === 'value' || asked !== undefined) return number(arg.value) + unitSign(arg.unit, language)
  return `${number(arg.value)}${unitSign(arg.unit, language)} (${number(arg.low)}\u2009…\u2009${number(arg.high)})`
}

function signed(value: number, decimals: number, language: string): string {
  const shown = formatNumber(value, decimals, language)
  return value > 0 && Number(value.toFixed(decimals)) !== 0 ? `+${shown}` : shown
}

/** A lower bound: "≥ 4.1 kV". */
export const boundWords = (value: number, unit: string, language: string): string =>
  `\u2265\u00a0${formatNumber(value, 1, language)}${unitSign(unit, language)}`
