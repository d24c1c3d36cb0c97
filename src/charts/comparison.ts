import type { Result } from '../records/result.ts'

/** What may be drawn before beside after: a picture compares as surely as a sentence does. */
export interface Comparison {
  shares: boolean
  voltages: boolean
}

/** Read from what the repair check found the conditions of the two stages to forbid. */
export const comparisonOf = ({ repair }: Result): Comparison => ({
  shares: repair.forbids !== 'all',
  voltages: repair.forbids === undefined,
})
