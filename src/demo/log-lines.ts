import type { LogLine } from './demo-job.ts'

type When = Pick<LogLine, 'at' | 'stage' | 'condition'>

/** Fuel trims read at one moment, %, against +/- 10 % usual for a vehicle in order. */
export const trims = (when: When, values: Readonly<Record<string, number>>): LogLine[] =>
  Object.entries(values).map(([reading, value]) => ({
    ...when,
    step: 'trim',
    reading,
    value,
    unit: '%',
    expected_low: -10,
    expected_high: 10,
  }))

/** Exhaust gas read at one moment; CO, CO2 and O2 in % vol, HC in ppm as hexane. */
export const gases = (
  when: When,
  values: { CO: number; CO2: number; HC: number; O2: number },
  note?: string,
): LogLine[] =>
  (['CO', 'CO2', 'HC', 'O2'] as const).map((reading, i) => ({
    ...when,
    step: 'gas',
    reading,
    value: values[reading],
    unit: reading === 'HC' ? 'ppm' : '%vol',
    ...(reading === 'CO' ? { expected_low: 0, expected_high: 0.5 } : {}),
    ...(i === 0 && note !== undefined ? { note } : {}),
  }))

/** Compression of every cylinder, bar, against the vehicle maker's lowest and highest. */
export const compressions = (
  when: When,
  bars: readonly number[],
  limits: { low: number; high: number },
): LogLine[] =>
  bars.map((value, i) => ({
    ...when,
    step: 'compression',
    reading: `cylinder ${i + 1}`,
    value,
    unit: 'bar',
    expected_low: limits.low,
    expected_high: limits.high,
  }))

/** Fuel pressure with the key on, at idle and held after switching off, kPa. */
export const fuelPressure = (
  when: When,
  kpa: { keyOn: number; idle: number; hold: number },
  limits: { low: number; high: number },
): LogLine[] =>
  (
    [
      ['key-on', kpa.keyOn],
      ['idle', kpa.idle],
      ['hold', kpa.hold],
    ] as const
  ).map(([reading, value]) => ({
    ...when,
    step: 'fuel-pressure',
    reading,
    value,
    unit: 'kPa',
    expected_low: limits.low,
    expected_high: limits.high,
  }))

/** One spray, with its trace and the technician's own impression. */
export const spray = (
  line: Pick<LogLine, 'at' | 'stage' | 'condition' | 'trace' | 'from_s' | 'to_s' | 'outcome' | 'note'>,
  place: string,
  reading = 'starting-fluid',
): LogLine => ({ ...line, step: 'spray', place, reading })
