import type { Result } from '../records/result.ts'

/** Changes that let nothing be laid beside each other, and those that touch voltages alone; keys of the result's statements. */
const STAGES_APART: ReadonlySet<string> = new Set([
  'conditions.condition',
  'conditions.engine',
  'conditions.speed',
])
const VOLTAGES_APART: ReadonlySet<string> = new Set(['conditions.pickup'])

/** What may be drawn before beside after: a picture compares as surely as a sentence does. */
export interface Comparison {
  shares: boolean
  voltages: boolean
}

/** Read from the changes of conditions that the repair check found. */
export function comparisonOf(result: Result): Comparison {
  const keys = result.repair.conditions.map((c) => c.key)
  const shares = !keys.some((key) => STAGES_APART.has(key))
  return { shares, voltages: shares && !keys.some((key) => VOLTAGES_APART.has(key)) }
}
