import { ownWords, sentence, type Arg, type Texts } from './messages.ts'
import { say } from './say.ts'

/** Where a cause sits, for a sentence: `cylinder 2` and `bank 1` are words of the contract, any other place is the technician's own. */
export function placeArg(place: string): Arg {
  const [, cylinders] = SEVERAL.exec(place) ?? []
  if (cylinders !== undefined) return sentence('cause.at-cylinders', { cylinders })
  const [, part, number] = /^(cylinder|bank) (\d+)$/.exec(place) ?? []
  if (number === undefined) return ownWords(place)
  return sentence(part === 'bank' ? 'cause.at-bank' : 'cause.at-cylinder', { number })
}

const SEVERAL = /^cylinders (\d+(?:, \d+)+)$/

/** The same in the reader's language. */
export function placeWords(texts: Texts, place: string): string {
  const arg = placeArg(place)
  return typeof arg === 'object' && 'key' in arg ? say(texts, arg) : place
}
