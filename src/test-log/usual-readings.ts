import { problem, type Problem } from '../problems/problem.ts'
import { LOG_FILE as FILE } from '../job/own-files.ts'
import type { Job } from '../job/schema.ts'
import type { LogEntry } from './entry.ts'
import { ATMOSPHERE_KPA, fromKpa, isPressureUnit, toKpa } from '../units/pressure.ts'
import { cylinderOf, type UsualRange } from './step-kind.ts'
import { STEP_KINDS } from './steps/index.ts'
import { BAROMETER } from './steps/vacuum.ts'

/** A figure beyond what readings of its kind can be: shown and asked about, and not used. */
export function isDoubtful(entry: LogEntry): boolean {
  const held = heldAgainst(entry)
  if (held === undefined || unusual(entry).length === 0) return false
  const [least, most] = held.own.world ?? [held.own.least, held.own.most]
  return held.inUnit < least || held.inUnit > most
}

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
function beyondVacuum({ step, reading, value, unit = '', line }: LogEntry): Problem | undefined {
  if (
    step !== 'vacuum' ||
    value === undefined ||
    !isPressureUnit(unit) ||
    reading === BAROMETER ||
    (unit !== 'inHg' && value >= 0) ||
    toKpa(Math.abs(value), unit) < ATMOSPHERE_KPA
  )
    return undefined
  const most = fromKpa(ATMOSPHERE_KPA, unit).toPrecision(3)
  return problem(
    'wrong-cell',
    { file: FILE, line },
    { column: 'value', found: `${value} ${unit}`, expected: `< ${most} ${unit}` },
  )
}

/** The range a figure is held against, and the figure in that range's unit; undefined where there is none. */
function heldAgainst({
  step,
  reading,
  value,
  unit,
}: LogEntry): { own: UsualRange; inUnit: number } | undefined {
  if (value === undefined || unit === undefined) return undefined
  const own = STEP_KINDS[step].usual?.find(
    (u) =>
      (u.reading === undefined || u.reading === reading) &&
      (u.unit === unit || (u.unit === 'kPa' && isPressureUnit(unit))),
  )
  return own && { own, inUnit: own.unit === 'kPa' && isPressureUnit(unit) ? toKpa(value, unit) : value }
}

function unusual(entry: LogEntry): Problem[] {
  const held = heldAgainst(entry)
  if (!held) return []
  const { own, inUnit } = held
  // A negative figure that cannot be is refused by its cell.
  if ((own.least === 0 && inUnit < 0) || (inUnit >= own.least && inUnit <= own.most)) return []
  const { step, reading, value, unit, line } = entry
  return [
    problem(
      'unusual-value',
      { file: FILE, line, severity: 'warn' },
      { key: reading ?? step, found: `${value} ${unit}`, usual: `${own.least} … ${own.most} ${own.unit}` },
    ),
  ]
}
