import type { Texts } from '../../texts/messages.ts'
import { placeWords } from '../../texts/place-words.ts'
import { say, sayLoose } from '../../texts/say.ts'
import type { Candidate } from '../../verdicts/causes/candidates.ts'
import { placeOf } from '../../verdicts/causes/place-of.ts'
import type { WeighedCauses } from '../../verdicts/causes/weigh-causes.ts'

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
