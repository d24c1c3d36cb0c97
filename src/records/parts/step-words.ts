import { listOf, ownWords, sentence, sentenceOf } from '../../texts/messages.ts'
import type { Args, Sentence, TextKey, WordKey } from '../../texts/messages.ts'
import { placeArg } from '../../texts/place-words.ts'
import type { FollowUpId, NextTestId } from '../../limits/keys.ts'
import type { Candidate } from '../../verdicts/causes/candidates.ts'
import type { FollowUp } from '../../verdicts/causes/follow-up.ts'
import type { NextTest } from '../../verdicts/causes/next-test.ts'
import { placeOf } from '../../verdicts/causes/place-of.ts'
import { FOLLOW_UP_WORDS, TEST_WORDS } from '../../verdicts/causes/test-words.ts'
import type { WeighedCauses } from '../../verdicts/causes/weigh-causes.ts'
import type { Hose, Station } from '../../verdicts/leak-hunt/stations.ts'
import type { NextJoint, Way } from '../../verdicts/leak-hunt/next-joint.ts'
import { bareName, namesOf } from './cause-names.ts'

/**
 * What to do next, in the one sentence that every place of a report says it with; a round of sprays with the joint to
 * begin at.
 */
export function stepSays(all: WeighedCauses, joint: NextJoint | undefined): Sentence {
  const weighed = { ...all, ...all.now }
  const next = weighed.next!
  const begin = next.id === 'spray-round' && joint ? jointSays(joint) : undefined
  return begin
    ? sentence('next-test.spray-round.begin', { step: begin })
    : sentenceOf(wordsOf(next).says, targetArgs(weighed, next))
}

export const isChosen = (next: NextTest | FollowUp): next is NextTest => 'gainBits' in next

export const wordsOf = (next: NextTest | FollowUp) =>
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

const BY_PLACE: Readonly<Record<Exclude<Way, 'smoke'>, TextKey>> = {
  spray: 'leak-hunt.next.spray',
  cap: 'leak-hunt.next.cap',
  'cap-and-spray': 'leak-hunt.next.cap-and-spray',
  again: 'leak-hunt.next.again',
}
const BY_STATION: Readonly<Record<Exclude<Station, 'hose'>, TextKey>> = {
  meter: 'leak-hunt.next.meter',
  duct: 'leak-hunt.next.duct',
  throttle: 'leak-hunt.next.throttle',
  plenum: 'leak-hunt.next.plenum',
  manifold: 'leak-hunt.next.manifold',
  runner: 'leak-hunt.next.runner',
  port: 'leak-hunt.next.port',
}
const BY_HOSE: Readonly<Record<Hose, WordKey>> = {
  vacuum: 'leak-hunt.next.vacuum-hoses',
  breather: 'leak-hunt.next.breather',
  'brake servo': 'leak-hunt.next.brake-servo',
  purge: 'leak-hunt.next.purge',
  'exhaust recirculation': 'leak-hunt.next.recirculation',
}

/** Smoke is a step of its own. */
function jointSays({ way, place, seat }: NextJoint): Sentence | undefined {
  if (way === 'smoke') return undefined
  if (place !== undefined || seat === undefined)
    return sentenceOf(BY_PLACE[way], place === undefined ? {} : { place: ownWords(place) })
  if (seat.station === 'hose') return sentence(seat.hose ? BY_HOSE[seat.hose] : 'leak-hunt.next.hoses')
  if (seat.station === 'manifold' && seat.bank !== undefined)
    return sentence('leak-hunt.next.manifold-bank', { bank: seat.bank })
  return sentenceOf(BY_STATION[seat.station], seat.cylinder === undefined ? {} : { cylinder: seat.cylinder })
}
