import { sentence, sentenceOf } from '../../texts/messages.ts'
import type { Sentence, Texts } from '../../texts/messages.ts'
import { candidateKey } from '../../verdicts/causes/candidates.ts'
import type { FollowUp } from '../../verdicts/causes/follow-up.ts'
import type { NextTest } from '../../verdicts/causes/next-test.ts'
import { placeOf } from '../../verdicts/causes/place-of.ts'
import type { WeighedCauses } from '../../verdicts/causes/weigh-causes.ts'
import { toDigits } from '../round.ts'
import type { Result } from '../result.ts'
import { namesOf, quotedName } from './cause-names.ts'
import type { NextJoint } from '../../verdicts/leak-hunt/next-joint.ts'
import { statement } from './statement.ts'
import { isChosen, stepSays, wordsOf } from './step-words.ts'

/** What to do next with the car as it stands now: in words with its reason and its minutes, the cautions that go with it, what each outcome would mean. Null: nothing more. */
export function nextTestRecord(
  texts: Texts,
  all: WeighedCauses,
  joint: NextJoint | undefined,
): Result['next_test'] {
  const weighed: WeighedCauses = { ...all, ...all.now }
  const { next } = weighed
  if (!next) return null
  return {
    id: next.id,
    place: next.target ? placeOf(weighed, next.target) : null,
    minutes: next.minutes,
    says: statement(
      texts,
      sentence('next-test.says', {
        test: stepSays(all, joint),
        minutes: next.minutes,
        why: why(weighed, next),
      }),
    ),
    gain_bits: isChosen(next) ? toDigits(next.gainBits, 3) : null,
    cautions: [...next.cautions],
    outcomes: isChosen(next)
      ? next.outcomes.map((o) => outcome(texts, weighed, { next, o }))
      : next.outcomes.map((id) => ({
          id,
          probability: null,
          says: statement(texts, sentence(wordsOf(next).outcomes[id]!)),
        })),
  }
}

function why(weighed: WeighedCauses, next: NextTest | FollowUp): Sentence {
  if (!isChosen(next)) return sentence(next.why)
  const { firsts, second } = weighed.standing
  const first = namesOf(weighed, firsts)
  if (next.why === 'beside') return sentence('next-test.why.beside', { first })
  return next.why === 'separates'
    ? sentence('next-test.why.separates', { first, second: quotedName(weighed, second) })
    : sentence('next-test.why.tells-most')
}

function outcome(
  texts: Texts,
  weighed: WeighedCauses,
  { next, o }: { next: NextTest; o: NextTest['outcomes'][number] },
) {
  return {
    id: o.id,
    probability: toDigits(o.chance, 3),
    says: statement(
      texts,
      sentenceOf(o.names ? 'next-test.outcome-found' : 'next-test.outcome', {
        outcome: sentence(wordsOf(next).outcomes[o.id]!),
        first: quotedName(weighed, o.lifts.candidate),
        // no word of the sentence: other programs read here which cause it is
        cause: candidateKey(o.lifts.candidate),
        percent: 100 * o.lifts.share,
      }),
    ),
  }
}
