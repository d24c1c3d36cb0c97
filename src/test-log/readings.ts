import type { Step } from './findings.ts'

/** What a step's `reading` may be and the units its value may carry. */
export interface ReadingKind {
  /** Known words, as suggestions for a mistyped one. */
  words: readonly string[]
  accepts: (reading: string) => boolean
  units: (reading: string) => readonly string[]
}

const PRESSURE_UNITS = ['kPa', 'psi', 'bar', 'inHg'] as const
const TRIM_READINGS = ['STFT1', 'LTFT1', 'STFT2', 'LTFT2'] as const
const GAS_READINGS = ['CO', 'CO2', 'HC', 'O2', 'NOx'] as const
const PRESSURE_READINGS = ['key-on', 'idle', 'hold'] as const
const SPRAY_AGENTS = ['starting-fluid', 'propane'] as const

const COMPRESSION = /^cylinder (\d{1,2})$/
/** Letter, first digit 0-3, three hexadecimal digits. @source SAE J2012 / ISO 15031-6 */
export const TROUBLE_CODE = /^[PCBU][0-3][0-9A-F]{3}$/

const oneOf = (words: readonly string[], units: (reading: string) => readonly string[]): ReadingKind => ({
  words,
  accepts: (reading) => words.includes(reading),
  units,
})

/** Readings of the measured steps (job-folder contract); other steps carry none. */
export const READINGS: Readonly<Partial<Record<Step, ReadingKind>>> = {
  spray: oneOf(SPRAY_AGENTS, () => ['rpm']),
  trim: oneOf(TRIM_READINGS, () => ['%']),
  gas: oneOf(GAS_READINGS, (reading) =>
    reading === 'HC' || reading === 'NOx' ? ['ppm', '%vol'] : ['%vol', '%', 'ppm'],
  ),
  'fuel-pressure': oneOf(PRESSURE_READINGS, () => PRESSURE_UNITS),
  vacuum: oneOf(['manifold'], () => PRESSURE_UNITS),
  compression: {
    words: Array.from({ length: 16 }, (_, i) => `cylinder ${i + 1}`),
    accepts: (reading) => COMPRESSION.test(reading),
    units: () => PRESSURE_UNITS,
  },
  airflow: oneOf(['MAF'], () => ['g/s']),
  code: { words: [], accepts: (reading) => TROUBLE_CODE.test(reading), units: () => [] },
}

/** Steps whose rows need a value and its unit. */
export const VALUED_STEPS: ReadonlySet<Step> = new Set([
  'trim',
  'gas',
  'fuel-pressure',
  'vacuum',
  'compression',
  'airflow',
])
/** Steps whose rows need a place. */
export const PLACED_STEPS: ReadonlySet<Step> = new Set(['spray', 'cap', 'uncap', 'smoke', 'repair'])

/** Cylinder a compression reading names; undefined for another word. */
export function cylinderOf(reading: string): number | undefined {
  const found = COMPRESSION.exec(reading)?.[1]
  return found === undefined ? undefined : Number(found)
}
