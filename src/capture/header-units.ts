/** Units a header can name, as written there (lower case), and the unit meant. */
const WRITTEN: Readonly<Record<string, string>> = {
  s: 's',
  sec: 's',
  secs: 's',
  second: 's',
  seconds: 's',
  ms: 'ms',
  msec: 'ms',
  millisecond: 'ms',
  milliseconds: 'ms',
  us: 'us',
  µs: 'us',
  μs: 'us',
  usec: 'us',
  microsecond: 'us',
  microseconds: 'us',
  ns: 'ns',
  nsec: 'ns',
  nanosecond: 'ns',
  nanoseconds: 'ns',
  sekunde: 's',
  sekunden: 's',
  seconde: 's',
  secondes: 's',
  segundo: 's',
  segundos: 's',
  secondi: 's',
  millisekunden: 'ms',
  millisecondes: 'ms',
  milisegundos: 'ms',
  millisecondi: 'ms',
  mikrosekunden: 'us',
  microsecondes: 'us',
  microsegundos: 'us',
  microsecondi: 'us',
  min: 'min',
  h: 'h',
  v: 'V',
  volt: 'V',
  volts: 'V',
  mv: 'mV',
  kv: 'kV',
  kilovolt: 'kV',
  kilovolts: 'kV',
  millivolt: 'mV',
  millivolts: 'mV',
  voltios: 'V',
  µv: 'uV',
  μv: 'uV',
  uv: 'uV',
  a: 'A',
  amp: 'A',
  amps: 'A',
  ampere: 'A',
  amperes: 'A',
  ma: 'mA',
  rpm: 'rpm',
  '1/min': 'rpm',
  'min-1': 'rpm',
  'r/min': 'rpm',
  'u/min': 'rpm',
  'tr/min': 'rpm',
  hz: 'Hz',
  khz: 'kHz',
  mhz: 'MHz',
}
/** A letter that is also the name of a channel ("Channel (A)", "ch_a") is no unit there. */
const CHANNEL_LETTER = /\b(?:ch|chan|channel|input|trace|probe)\b/i

/** The unit a cell of a units row means, brackets allowed; undefined for other words. Case tells mV from MV. */
export function unitOf(cell: string): string | undefined {
  const inner = cell.trim().replace(/^[([{]\s*(.*?)\s*[)\]}]$/, '$1')
  if (/^M[VA]$/.test(inner)) return inner
  return WRITTEN[inner.toLowerCase()]
}

/** A header's name and the unit written with it: `Voltage (mV)`, `Voltage [V]`, `U / V`, `secondary_kv`, `time us`. */
export function nameAndUnit(header: string): { name: string; unit: string | undefined } {
  const bracketed = /^(.*?)\s*[([{]\s*([^()[\]{}]+?)\s*[)\]}]\s*$/.exec(header)
  if (bracketed) {
    const [, name = '', inside = ''] = bracketed
    const unit = inside.toLowerCase() === 'a' && CHANNEL_LETTER.test(name) ? undefined : unitOf(inside)
    return { name: unit === undefined ? header.trim() : name.trim(), unit }
  }
  const divided = /^(.*\S)\s*\/\s*(\S+)$/.exec(header)
  if (divided) {
    const unit = unitOf(divided[2] ?? '')
    if (unit !== undefined) return { name: (divided[1] ?? '').trim(), unit }
  }
  const suffixed = /^(.+?)[_ .-]([A-Za-zµμ]+)$/.exec(header.trim())
  const unit = suffixed ? unitOf(suffixed[2] ?? '') : undefined
  // One letter after a blank or underline is a unit only for seconds and volts: `ch_a` and `sensor h` are names.
  const sure = unit !== undefined && ((suffixed?.[2]?.length ?? 0) > 1 || unit === 's' || unit === 'V')
  return sure ? { name: suffixed?.[1] ?? header, unit } : { name: header.trim(), unit: undefined }
}
