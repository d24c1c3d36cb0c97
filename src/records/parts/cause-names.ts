import { listOf, sentence, type Arg, type Sentence } from '../../texts/messages.ts'
import { placeArg } from '../../texts/place-words.ts'
import type { Candidate } from '../../verdicts/causes/candidates.ts'
import { CAUSE_WORDS } from '../../verdicts/causes/cause-kinds.ts'
import { placeOf } from '../../verdicts/causes/place-of.ts'
import type { WeighedCauses } from '../../verdicts/causes/weigh-causes.ts'

/** A cause without its place. */
export const bareName = (id: string): Sentence => sentence(CAUSE_WORDS[id as keyof typeof CAUSE_WORDS])

/** Name of a candidate with its place, for a sentence. */
export function nameOf(weighed: WeighedCauses, candidate: Candidate): Sentence {
  const cause = bareName(candidate.id)
  const place = placeOf(weighed, candidate)
  return place === null ? cause : sentence('cause.at', { cause, place: placeArg(place) })
}

/** Name of a candidate in quotation marks: names begin with a capital and hold commas and colons, which a sentence would not survive. */
export const quotedName = (weighed: WeighedCauses, candidate: Candidate): Sentence =>
  sentence('chart.quoted', { words: nameOf(weighed, candidate) })

/** Several names, each in quotation marks, as one list. */
export const namesOf = (weighed: WeighedCauses, candidates: readonly Candidate[]): Arg =>
  listOf(
    candidates.map((c) => quotedName(weighed, c)),
    'and',
  )
