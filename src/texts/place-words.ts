import type { Texts } from './messages.ts'
import { say } from './say.ts'

/** Where a cause sits, in the reader's language: `cylinder 2` and `bank 1` are words of the contract, any other place is the technician's own. */
export function placeWords(texts: Texts, place: string): string {
  const [, part, number] = /^(cylinder|bank) (\d+)$/.exec(place) ?? []
  return number === undefined
    ? place
    : say(texts, part === 'bank' ? 'cause.at-bank' : 'cause.at-cylinder', { number })
}
