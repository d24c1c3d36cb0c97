import { limit, type Limits } from '../limits/limits.ts'
import { sentence, type Sentence, type TextKey } from '../texts/messages.ts'
import { placeArg } from '../texts/place-words.ts'
import type { Fault } from './conclusion.ts'
import { causeName } from './headline.ts'
import type { StandingWord } from './words.ts'

type Named = 'fault.standing.clear' | 'fault.standing.leading' | 'fault.standing.several'
const SAYS: Readonly<Record<Exclude<StandingWord, 'open'>, TextKey & Named>> = {
  clear: 'fault.standing.clear',
  leading: 'fault.standing.leading',
  'one of several': 'fault.standing.several',
}

/** How sure a fault is, with how it fares when weights and priors are off. */
export function standingSays(
  { cause, place, standing, shareRange: [low, high], keepsFirst }: Omit<Fault, 'id' | 'says'>,
  limits: Limits,
): Sentence {
  if (standing === 'open' || cause === 'other') return sentence('fault.standing.open')
  const name = causeName(cause)
  return sentence(SAYS[standing], {
    cause: place === undefined ? name : sentence('cause.at', { cause: name, place: placeArg(place) }),
    factor: limit(limits, 'weightsOffFactor'),
    keeps: 100 * keepsFirst,
    low: 100 * low,
    high: 100 * high,
  })
}
