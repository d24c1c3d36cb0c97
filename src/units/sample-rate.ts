/** Samples a second, in Hz, as recorders and people write it: `500k`, `500 kS/s`, `0.5 MHz`, `2 us`, `2E-06 s`. */

const NUMBER = /^([+]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[-+]?\d+)?)\s*(.*)$/i
const PER_SECOND: Readonly<Record<string, number>> = { '': 1, k: 1e3, K: 1e3, M: 1e6, G: 1e9 }
const OF_SECOND: Readonly<Record<string, number>> = {
  s: 1,
  sec: 1,
  second: 1,
  seconds: 1,
  sekunden: 1,
  secondes: 1,
  segundos: 1,
  ms: 1e-3,
  msec: 1e-3,
  us: 1e-6,
  '\u00b5s': 1e-6,
  '\u03bcs': 1e-6,
  usec: 1e-6,
  ns: 1e-9,
}
const RATE_UNIT = /^([kKMG]?)\s*(?:hz|s\/s|sa\/s|sps|samples?\s*(?:\/|per)\s*s(?:ec(?:ond)?)?|1\/s|a\/s)$/i
/** A bare figure from here on is a rate: nobody records ignition with fewer samples a second. */
const LEAST_BARE_HZ = 1000

/** What a figure with its unit says: a rate, an interval between samples as a rate, or undefined where it says neither. */
export function sampleRateOf(written: string): number | undefined {
  const found = NUMBER.exec(written.trim())
  if (!found) return undefined
  const value = Number(found[1]!.replace(',', '.'))
  const unit = found[2]!.trim().replace(/[.;]$/, '')
  return value > 0 ? inHz(value, unit) : undefined
}

function inHz(value: number, unit: string): number | undefined {
  if (unit === '') return value >= LEAST_BARE_HZ ? value : undefined
  if (unit === 'k' || unit === 'K' || unit === 'M') return value * PER_SECOND[unit]!
  const rate = RATE_UNIT.exec(unit)
  if (rate) return value * PER_SECOND[rate[1]!]!
  const seconds = OF_SECOND[unit] ?? OF_SECOND[unit.toLowerCase()]
  return seconds === undefined ? undefined : rounded(1 / (value * seconds))
}

/** An interval of 4 us is 250 000 samples a second, and no 250 000.00000000003. */
const rounded = (hz: number): number => Number(hz.toPrecision(12))
