import { excerpt } from '../job/excerpt.ts'
import { LOG_FILE as FILE } from '../job/own-files.ts'
import { problem, type Problem } from '../problems/problem.ts'
import type { LogEntry } from './entry.ts'
import { STEP_KINDS } from './steps/index.ts'

/**
 * An answer is never lost unseen: an outcome that is not understood is asked about, and a row of a test that says
 * nothing at all is named. Neither refuses the job.
 */
export function checkOutcome({ step, place: at, outcome, value, trace, line }: LogEntry): Problem[] {
  const { outcome: kind, needs } = STEP_KINDS[step]
  // A row without its place is refused for that.
  if (!kind || (needs.place && at === undefined)) return []
  const words = kind.words.join(', ')
  const place = { file: FILE, line, severity: 'warn' as const }
  if (outcome !== undefined)
    return trace !== undefined || value !== undefined || kind.reads(outcome)
      ? []
      : [problem('outcome-unread', place, { found: excerpt(outcome), step, words })]
  return kind.needed && value === undefined && trace === undefined
    ? [problem('row-says-nothing', place, { step, words })]
    : []
}
