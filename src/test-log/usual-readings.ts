import { problem, type Problem } from '../problems/problem.ts'
import { LOG_FILE as FILE } from '../job/own-files.ts'
import type { Job } from '../job/schema.ts'
import type { LogEntry } from './entry.ts'
import { ATMOSPHERE_KPA } from '../units/pressure.ts'
import { cylinderOf } from './step-kind.ts'
import { STEP_KINDS } from './steps/index.ts'

/** Kilopascals in one of a pressure unit. @source NIST SP 811 (2008), B.8: psi and inHg (conventional) to four figures */
const KPA_OF: Readonly<Record<string, number>> = { kPa: 1, bar: 100, psi: 6.895, inHg: 3.386 }

/** A figure beyond what readings of its kind lie within: shown and asked about, and not used. */
export const isDoubtful = (entry: LogEntry): boolean => unusual(entry).length > 0

/** A reading that no engine gives is asked about; one that cannot be, and a cylinder that the engine does not have, are refused. */
export function checkReading(entry: LogEntry, job: Job): Problem[] {
  const cylinder = cylinderOf(entry.reading)
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
  const own = STEP_KINDS[step].usual?.find(
    (u) =>
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
