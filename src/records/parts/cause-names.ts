import type { Texts } from '../../texts/messages.ts'
import { placeWords } from '../../texts/place-words.ts'
import { say, sayLoose } from '../../texts/say.ts'
import type { Candidate } from '../../verdicts/causes/candidates.ts'
import { pointedAt } from '../../verdicts/causes/pointed-at.ts'
import type { WeighedCauses } from '../../verdicts/causes/weigh-causes.ts'

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

/** Name of a candidate with its place, for a sentence. */
export function nameOf(texts: Texts, weighed: WeighedCauses, candidate: Candidate): string {
  const cause = sayLoose(texts, `cause.${candidate.id}`)
  const place = placeOf(weighed, candidate)
  return place === null ? cause : say(texts, 'cause.at', { cause, place: placeWords(texts, place) })
}

/** Name of a candidate in quotation marks: names begin with a capital and hold commas and colons, which a sentence would not survive. */
export const quotedName = (texts: Texts, weighed: WeighedCauses, candidate: Candidate): string =>
  say(texts, 'chart.quoted', { words: nameOf(texts, weighed, candidate) })

/** Several names, each in quotation marks, as one list. */
export function namesOf(texts: Texts, weighed: WeighedCauses, candidates: readonly Candidate[]): string {
  const names = candidates.map((c) => quotedName(texts, weighed, c))
  return names.length < 2
    ? names[0]!
    : say(texts, 'standing.list-and', { first: names.slice(0, -1).join(', '), last: names.at(-1)! })
}
