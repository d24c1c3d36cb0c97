import type { Texts } from './messages.ts'
import { sayLoose } from './say.ts'

/** Where a cause sits, in the reader's language: `cylinder 2` and `bank 1` are words of the contract, any other place is the technician's own. */
export function placeWords(texts: Texts, place: string): string {
  const [, part, number] = /^(cylinder|bank) (\d+)$/.exec(place) ?? []
  return number === undefined ? place : sayLoose(texts, `cause.at-${part}`, { number })
}
