import { formatNumber } from '../texts/format-quantity.ts'

/** The language's decimal sign for Vega's own axes, taken from the one place that formats numbers. */
export function numberLocale(language: string) {
  const decimal = formatNumber(0.5, 1, language).charAt(1)
  return { decimal, thousands: '', grouping: [3], currency: ['', ''] as [string, string] }
}
