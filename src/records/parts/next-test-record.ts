import type { Texts } from '../../texts/messages.ts'
import { placeWords } from '../../texts/place-words.ts'
import { say, sayLoose } from '../../texts/say.ts'
import type { Candidate } from '../../verdicts/causes/candidates.ts'
import type { FollowUp } from '../../verdicts/causes/follow-up.ts'
import type { NextTest } from '../../verdicts/causes/next-test.ts'
import { placeOf } from '../../verdicts/causes/place-of.ts'
import type { WeighedCauses } from '../../verdicts/causes/weigh-causes.ts'
import { toDigits } from '../round.ts'
import type { Result } from '../result.ts'
import { namesOf, quotedName } from './cause-names.ts'
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
    says: statement(texts, {
      key: 'next-test.says',
      args: {
        test: sayLoose(texts, `next-test.${next.id}`, targetArgs(texts, weighed, next)),
        minutes: next.minutes,
        why: why(texts, weighed, next),
      },
    }),
    gain_bits: isChosen(next) ? toDigits(next.gainBits, 3) : null,
    cautions: [...next.cautions],
    outcomes: isChosen(next)
      ? next.outcomes.map((o) => outcome(texts, weighed, { next, o }))
      : next.outcomes.map((id) => ({
          id,
          probability: null,
          says: statement(texts, { key: `next-test.${next.id}.${id}`, args: {} }),
        })),
  }
}

const isChosen = (next: NextTest | FollowUp): next is NextTest => 'gainBits' in next

/** Targets are causes at their places; a follow-up of a cause at several places names them all. */
function targetArgs(
  texts: Texts,
  weighed: WeighedCauses,
  next: NextTest | FollowUp,
): Record<string, string | number> {
  const { target } = next
  if (!target) return {}
  const { firsts, beside } = weighed.standing
  const all: readonly Candidate[] = isChosen(next) ? [target] : beside ? [...firsts, beside.cause] : firsts
  const seats = all
    .map((c) => placeOf(weighed, c))
    .map((place, i) => (place === null ? sayLoose(texts, `cause.${all[i]!.id}`) : placeWords(texts, place)))
  const seat =
    seats.length < 2
      ? seats[0]!
      : say(texts, 'standing.list-and', { first: seats.slice(0, -1).join(', '), last: seats.at(-1)! })
  return {
    target: namesOf(texts, weighed, all),
    seat,
    ...(target.cylinder === undefined ? {} : { cylinder: target.cylinder }),
  }
}

function why(texts: Texts, weighed: WeighedCauses, next: NextTest | FollowUp): string {
  if (!isChosen(next)) return sayLoose(texts, next.why)
  const { firsts, second } = weighed.standing
  if (next.why === 'beside')
    return say(texts, 'next-test.why.beside', { first: namesOf(texts, weighed, firsts) })
  return next.why === 'separates'
    ? say(texts, 'next-test.why.separates', {
        first: namesOf(texts, weighed, firsts),
        second: quotedName(texts, weighed, second),
      })
    : say(texts, 'next-test.why.tells-most')
}

function outcome(
  texts: Texts,
  weighed: WeighedCauses,
  { next, o }: { next: NextTest; o: NextTest['outcomes'][number] },
) {
  const args = {
    outcome: sayLoose(texts, `next-test.${next.id}.${o.id}`),
    cause: quotedName(texts, weighed, o.lifts.candidate),
    percent: 100 * o.lifts.share,
  }
  return {
    id: o.id,
    probability: toDigits(o.chance, 3),
    says: statement(texts, { key: o.names ? 'next-test.outcome-found' : 'next-test.outcome', args }),
  }
}
