import type { Candidate } from './candidates.ts'
import type { LedgerContext, LedgerEntry } from './ledger.ts'
import { pointedAt } from './pointed-at.ts'

/** Whether an entry is a test of the candidate's own part: of its place where the evidence has one, else of its system by name. */
export function isOnPart(
  { observation }: LedgerEntry,
  candidate: Candidate,
  context: LedgerContext,
): boolean {
  const { likelihood, group } = context.table.evidence[observation.kind]!
  // what followed work on a part says little where another fault shows after it
  if (group === 'repair' || context.table.groups[group]!.shows !== 'part') return false
  const { id } = candidate
  const own = [id, ...context.table.causes[id]!.families].find((name) => likelihood[name] !== undefined)
  if (own === undefined) return false
  return typeof likelihood[own] === 'number'
    ? own === id
    : observation.at.kind !== 'engine' && pointedAt(candidate, observation, context) === 1
}
