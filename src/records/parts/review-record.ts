import type { Conclusion } from '../../conclusion/conclusion.ts'
import type { Job, ReviewEntry } from '../../job/schema.ts'
import type { CauseId } from '../../limits/keys.ts'
import { ownWords, sentence, type Sentence, type Texts } from '../../texts/messages.ts'
import { placeArg } from '../../texts/place-words.ts'
import { CAUSE_WORDS } from '../../verdicts/causes/cause-kinds.ts'
import type { VerdictName } from '../../verdicts/verdict-names.ts'
import { VERDICT_WORDS } from '../../verdicts/verdict-words.ts'
import type { ReviewRecord } from '../result.ts'
import { statement } from './statement.ts'

/** What the report says that a review may be held against. */
export interface Reviewed {
  /** The verdict that stands for a cylinder in a stage; undefined where it was not recorded. */
  verdictOf: (stage: 'before' | 'after', cylinder: number) => VerdictName | undefined
  faults: Conclusion['faults']
}

/** Every review beside what the report says. */
export const reviewRecords = (
  texts: Texts,
  review: NonNullable<Job['review']>,
  reviewed: Reviewed,
): ReviewRecord[] =>
  review.map((entry) =>
    entry.of === 'verdict' ? ofVerdict(texts, entry, reviewed) : ofCause(texts, entry, reviewed),
  )

const STAGES = { before: sentence('review.as-found'), after: sentence('review.after') } as const

function ofVerdict(texts: Texts, entry: ReviewEntry, { verdictOf }: Reviewed): ReviewRecord {
  const { by, at, of, instead, reason } = entry
  const cylinder = entry.cylinder!
  const stage = entry.stage ?? 'before'
  const said = verdictOf(stage, cylinder)
  const agrees = said === instead
  const args = {
    by: ownWords(by),
    cylinder,
    when: STAGES[stage],
    instead: sentence(VERDICT_WORDS[instead as VerdictName]),
  }
  const says = agrees
    ? sentence('review.verdict-alike', args)
    : sentence('review.verdict', {
        ...args,
        said: said === undefined ? sentence('review.not-recorded') : sentence(VERDICT_WORDS[said]),
      })
  return {
    ...{ by, at, of, cylinder, stage },
    ...{ said: said ?? null, said_place: null, instead, place: null, reason, agrees },
    says: statement(texts, says),
  }
}

function ofCause(texts: Texts, entry: ReviewEntry, { faults }: Reviewed): ReviewRecord {
  const { by, at, of, instead, place, reason } = entry
  const same = faults.find((f) => f.cause === instead && (place === undefined || isSamePlace(f.place, place)))
  const said = same ?? faults[0]
  const args = { by: ownWords(by), instead: causeAt(instead, place ?? same?.place) }
  const says = same
    ? sentence('review.cause-alike', args)
    : sentence('review.cause', {
        ...args,
        said: said ? causeAt(said.cause, said.place) : sentence('review.none-said'),
      })
  return {
    ...{ by, at, of, cylinder: null, stage: null },
    ...{ said: said?.cause ?? null, said_place: said?.place ?? null, instead, place: place ?? null },
    ...{ reason, agrees: same !== undefined, says: statement(texts, says) },
  }
}

const isSamePlace = (a: string | undefined, b: string): boolean =>
  a?.trim().toLowerCase() === b.trim().toLowerCase()

function causeAt(cause: string, place: string | undefined): Sentence {
  const name = sentence(CAUSE_WORDS[cause as CauseId])
  return place === undefined ? name : sentence('review.at', { cause: name, place: placeArg(place) })
}
