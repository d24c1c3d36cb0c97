import { LOG_FILE as FILE } from '../job/own-files.ts'
import { problem, type Problem } from '../problems/problem.ts'
import { toKpa, type PressureUnit } from '../units/pressure.ts'
import type { LogEntry } from './entry.ts'
import { PRESSURE_UNITS } from './step-kind.ts'
import { BAROMETER } from './steps/vacuum.ts'
import { groupEntries, measuredRows } from './test-group.ts'

/**
 * An engine that runs compresses to more than this, kPa; 150 psi written as 150 kPa, or 12 bar as 12 psi, do not
 * (common practice, no source: spark-ignition engines crank to 800 kPa and more, badly worn ones to half of it).
 */
const LEAST_COMPRESSION_KPA = 350

/** Asks about the units of one test: pressures in several, and compressions that another unit would make usual ones. */
export function doubtfulUnits(entries: readonly LogEntry[]): Problem[] {
  return groupEntries(entries).flatMap((group) => {
    const { step } = group[0]
    const rows = measuredRows(group).filter(
      ({ unit, reading }) => (PRESSURE_UNITS as readonly string[]).includes(unit) && reading !== BAROMETER,
    )
    // One reading with two figures is told as that.
    const twice = new Set(rows.map(({ reading }) => reading)).size < rows.length
    const units = [...new Set(rows.map(({ unit }) => unit))]
    if (units.length > 1 && !twice) {
      const { line } = rows.find(({ unit }) => unit !== rows[0]!.unit)!
      return [
        problem('units-mixed', { file: FILE, line, severity: 'warn' }, { step, units: units.join(', ') }),
      ]
    }
    const highest = rows.reduce((most, row) => (row.value > most.value ? row : most), rows[0]!)
    // One cylinder alone may hold nothing at all.
    if (step !== 'compression' || rows.length < 2 || isEnough(highest)) return []
    return [
      problem(
        'unit-doubtful',
        { file: FILE, line: highest.line, severity: 'warn' },
        { found: String(highest.value), unit: highest.unit },
      ),
    ]
  })
}

const isEnough = ({ value, unit }: { value: number; unit: string }): boolean =>
  toKpa(value, unit as PressureUnit) >= LEAST_COMPRESSION_KPA
