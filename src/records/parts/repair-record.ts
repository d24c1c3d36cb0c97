import type { Texts } from '../../texts/messages.ts'
import type { RepairCheck } from '../../verdicts/repair.ts'
import type { FigureName } from '../../metrics/figures.ts'
import { FIGURE_COLUMNS } from '../columns.ts'
import type { Result } from '../result.ts'
import { availableRecord } from './figure-record.ts'
import { statement } from './statement.ts'

/** The repair check: verdict, what was done by the log, and each cylinder's shift from before to after. */
export function repairRecord(texts: Texts, check: RepairCheck, work: readonly string[]): Result['repair'] {
  return {
    verdict: check.verdict, says: statement(texts, check.says), work: [...work],
    conditions: check.conditions.map((c) => statement(texts, c)),
    cylinders: check.cylinders.map((c) => ({
      cylinder: c.cylinder, before: c.before, after: c.after, verdict: c.verdict,
      shifts: Object.fromEntries(Object.entries(c.shifts)
        .map(([name, shift]) => [FIGURE_COLUMNS[name as FigureName].column, availableRecord(shift)])),
    })),
  }
}
