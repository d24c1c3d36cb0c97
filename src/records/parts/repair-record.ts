import type { Says } from '../../test-log/findings.ts'
import type { Texts } from '../../texts/messages.ts'
import type { RepairCheck } from '../../verdicts/repair.ts'
import type { EngineReading } from '../../verdicts/repair-readings.ts'
import type { FigureName } from '../../metrics/figures.ts'
import { FIGURE_COLUMNS } from '../columns.ts'
import type { Result } from '../result.ts'
import { availableRecord, intervalRecord } from './figure-record.ts'
import { statement } from './statement.ts'

/** The repair check: verdict, what was done by the log, what else was read in both stages, and each cylinder's shift. */
export function repairRecord(
  texts: Texts,
  check: RepairCheck,
  { work, readings, reason }: { work: readonly string[]; readings: readonly EngineReading[]; reason: Says },
): Result['repair'] {
  return {
    verdict: check.verdict,
    says: statement(texts, reason),
    work: [...work],
    conditions: check.conditions.map((c) => statement(texts, c)),
    ...(check.forbids === 'none' ? {} : { forbids: check.forbids }),
    readings: readings.map(({ name, condition, before, after, change }) => ({
      name,
      condition: condition ?? null,
      before: intervalRecord(before),
      after: intervalRecord(after),
      change: intervalRecord(change),
    })),
    cylinders: check.cylinders.map((c) => ({
      cylinder: c.cylinder,
      before: c.before,
      after: c.after,
      verdict: c.verdict,
      shifts: Object.fromEntries(
        Object.entries(c.shifts).map(([name, shift]) => [
          FIGURE_COLUMNS[name as FigureName].column,
          availableRecord(shift),
        ]),
      ),
    })),
  }
}
