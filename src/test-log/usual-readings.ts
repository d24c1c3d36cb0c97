import { problem, type Problem } from '../problems/problem.ts'
import { LOG_FILE as FILE } from '../job/own-files.ts'
import type { Job } from '../job/schema.ts'
import type { LogEntry } from './log-entry.ts'
import { ATMOSPHERE_KPA } from '../units/pressure.ts'
import { cylinderOf } from './readings.ts'

/** Kilopascals in one of a pressure unit. @source NIST SP 811 (2008), B.8: psi and inHg (conventional) to four figures */
const KPA_OF: Readonly<Record<string, number>> = { kPa: 1, bar: 100, psi: 6.895, inHg: 3.386 }

/** What readings of a step lie within unless a digit slipped or the unit is another; common practice, no source. */
const USUAL: readonly {
  step: LogEntry['step']
  reading?: string
  unit: string
  least: number
  most: number
}[] = [
  { step: 'trim', unit: '%', least: -60, most: 60 },
  { step: 'gas', reading: 'CO', unit: '%vol', least: 0, most: 15 },
  { step: 'gas', reading: 'CO2', unit: '%vol', least: 0, most: 20 },
  { step: 'gas', reading: 'O2', unit: '%vol', least: 0, most: 21 },
  { step: 'gas', reading: 'HC', unit: 'ppm', least: 0, most: 30_000 },
  { step: 'gas', reading: 'NOx', unit: 'ppm', least: 0, most: 10_000 },
  { step: 'compression', unit: 'kPa', least: 0, most: 4000 },
  { step: 'fuel-pressure', unit: 'kPa', least: 0, most: 40_000 },
  { step: 'vacuum', unit: 'kPa', least: 0, most: 101 },
  { step: 'airflow', unit: 'g/s', least: 0, most: 1000 },
]

/** A reading that no engine gives is told of; one that cannot be, and a cylinder that the engine does not have, are refused. */
export function checkReading(entry: LogEntry, job: Job): Problem[] {
  const cylinder = entry.step === 'compression' ? cylinderOf(entry.reading ?? '') : undefined
  const beyond = cylinder !== undefined && (cylinder < 1 || cylinder > job.engine.cylinders)
  const wrong = beyond
    ? [
        problem(
          'wrong-cell',
          { file: FILE, line: entry.line },
          {
            column: 'reading',
            found: entry.reading ?? '',
            expected: `cylinder 1 … cylinder ${job.engine.cylinders}`,
          },
        ),
      ]
    : []
  const impossible = beyondVacuum(entry)
  return [...wrong, ...(impossible ? [impossible] : unusual(entry))]
}

/** A vacuum gauge's figure, in inches of mercury or below zero, that leaves less than nothing of the air pressure. */
function beyondVacuum({ step, value, unit = '', line }: LogEntry): Problem | undefined {
  const kpaOf = step === 'vacuum' && Object.hasOwn(KPA_OF, unit) ? KPA_OF[unit]! : undefined
  if (
    value === undefined ||
    kpaOf === undefined ||
    (unit !== 'inHg' && value >= 0) ||
    Math.abs(value) * kpaOf < ATMOSPHERE_KPA
  )
    return undefined
  const most = (ATMOSPHERE_KPA / kpaOf).toPrecision(3)
  return problem(
    'wrong-cell',
    { file: FILE, line },
    { column: 'value', found: `${value} ${unit}`, expected: `< ${most} ${unit}` },
  )
}

function unusual({ step, reading, value, unit, line }: LogEntry): Problem[] {
  if (value === undefined || unit === undefined) return []
  const own = USUAL.find(
    (u) =>
      u.step === step &&
      (u.reading === undefined || u.reading === reading) &&
      (u.unit === unit || (u.unit === 'kPa' && Object.hasOwn(KPA_OF, unit))),
  )
  if (!own) return []
  const inUnit = own.unit === 'kPa' ? value * (KPA_OF[unit] ?? 1) : value
  // A negative figure that cannot be is refused by its cell.
  if ((own.least === 0 && inUnit < 0) || (inUnit >= own.least && inUnit <= own.most)) return []
  return [
    problem(
      'unusual-value',
      { file: FILE, line, severity: 'warn' },
      { key: reading ?? step, found: `${value} ${unit}`, usual: `${own.least} … ${own.most} ${own.unit}` },
    ),
  ]
}
