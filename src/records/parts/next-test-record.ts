import { sentence, sentenceOf, listOf } from '../../texts/messages.ts'
import type { Args, Sentence, Texts } from '../../texts/messages.ts'
import type { FollowUpId, NextTestId } from '../../limits/keys.ts'
import { FOLLOW_UP_WORDS, TEST_WORDS } from '../../verdicts/causes/test-words.ts'
import { candidateKey, type Candidate } from '../../verdicts/causes/candidates.ts'
import type { FollowUp } from '../../verdicts/causes/follow-up.ts'
import type { NextTest } from '../../verdicts/causes/next-test.ts'
import { placeOf } from '../../verdicts/causes/place-of.ts'
import type { WeighedCauses } from '../../verdicts/causes/weigh-causes.ts'
import { toDigits } from '../round.ts'
import type { Result } from '../result.ts'
import { placeArg } from '../../texts/place-words.ts'
import { bareName, namesOf, quotedName } from './cause-names.ts'
import { statement } from './statement.ts'

/** What to do next with the car as it stands now: in words with its reason and its minutes, the cautions that go with it, what each outcome would mean. Null: nothing more. */
export function nextTestRecord(texts: Texts, all: WeighedCauses): Result['next_test'] {
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
        test: sentenceOf(wordsOf(next).says, targetArgs(weighed, next)),
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

const isChosen = (next: NextTest | FollowUp): next is NextTest => 'gainBits' in next

const wordsOf = (next: NextTest | FollowUp) =>
  isChosen(next) ? TEST_WORDS[next.id as NextTestId] : FOLLOW_UP_WORDS[next.id as FollowUpId]

/** Targets are causes at their places; a follow-up of a cause at several places names them all. */
function targetArgs(weighed: WeighedCauses, next: NextTest | FollowUp): Args {
  const { target } = next
  if (!target) return {}
  const { firsts, beside } = weighed.standing
  const all: readonly Candidate[] = isChosen(next) ? [target] : beside ? [...firsts, beside.cause] : firsts
  const seats = all.map((c) => {
    const place = placeOf(weighed, c)
    return place === null ? bareName(c.id) : placeArg(place)
  })
  return {
    target: namesOf(weighed, all),
    seat: listOf(seats, 'and'),
    ...(target.cylinder === undefined ? {} : { cylinder: target.cylinder }),
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
