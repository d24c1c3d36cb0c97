import type { Candidate } from './candidates.ts'
import { pointedAt } from './pointed-at.ts'
import type { WeighedCauses } from './weigh-causes.ts'

/** Kinds that found something at a place, so that its words name the cause's place. */
const FOUND: ReadonlySet<string> = new Set([
  'spray-response',
  'isolation-itself',
  'isolation-through',
  'cap-changed',
  'smoke-leak',
  'repair-confirmed',
])

/**
 * Where a candidate sits, in the words of the records: `cylinder N`, `bank N`, or the technician's words of a place where
 * something was found; null for a cause of the whole engine.
 */
export function placeOf({ ledger, context }: WeighedCauses, candidate: Candidate): string | null {
  if (candidate.cylinder !== undefined) return `cylinder ${candidate.cylinder}`
  if (candidate.bank !== undefined) return `bank ${candidate.bank}`
  if (candidate.place !== undefined) return candidate.place
  const words = ledger.entries
    .map((e) => e.observation)
    .flatMap((o) =>
      FOUND.has(o.kind) && o.at.kind === 'places'
        ? o.at.places.map((place) => ({ ...o, at: { kind: 'places' as const, places: [place] } }))
        : [],
    )
    .filter((o) => pointedAt(candidate, o, context) === 1)
    .map((o) => o.at.places[0]!)
  return [...new Set(words)].sort((a, b) => a.length - b.length || (a < b ? -1 : 1))[0] ?? null
}
