import type { Result } from '../../records/result.ts'
import type { Arg, KeyNeeding, WordKey } from '../../texts/messages.ts'
import { placeWords } from '../../texts/place-words.ts'
import { say, wordOf } from '../../texts/say.ts'
import { CAUSE_WORDS } from '../../verdicts/causes/cause-kinds.ts'
import type { PageInput } from './page-input.ts'
import { dateWords, pair, series } from './words.ts'

/** What the record says of cause, correction, work and codes, for its page and for the claim text. */

type Said = Pick<PageInput, 'result' | 'texts'>
type Texts = Said['texts']

const STANDINGS = {
  clear: 'report.record.clear',
  leading: 'report.record.leading',
  'one of several': 'report.record.several',
  open: 'report.record.open',
} as const satisfies Record<Result['conclusion']['faults'][number]['standing'], KeyNeeding<{ cause: Arg }>>
const STANDS = {
  agrees: 'report.stated.agrees',
  'not tested': 'report.stated.not-tested',
  contradicted: 'report.stated.contradicted',
} as const satisfies Record<Result['conclusion']['stated'][number]['stands'], WordKey>

/**
 * What the technician states, in their words (`quoted` in a running text), and what the evidence says of it. A correction
 * that names no part we know is not called untested where the repair is confirmed: its proof stands beside it.
 */
export function heldAgainst(
  { result, texts }: Said,
  what: 'cause' | 'correction',
  quoted = false,
): string | null {
  const stated = result.conclusion.stated.find((s) => s.what === what)
  if (!stated) return null
  const words = quoted ? say(texts, 'report.customer.quoted', { words: stated.words }) : stated.words
  const proven = what === 'correction' && result.repair.verdict === 'repair confirmed'
  return proven && stated.stands === 'not tested'
    ? words
    : say(texts, 'report.stated.held', { words, stands: say(texts, STANDS[stated.stands]) })
}

const causeWords = (texts: Texts, cause: string, place: string | null): string =>
  [wordOf(texts, CAUSE_WORDS, cause), place === null ? '' : `(${placeWords(texts, place)})`]
    .filter(Boolean)
    .join(' ')

/** Each fault's likeliest cause with how firmly it stands, and its nearest rival. */
export function causesFound({ result, texts }: Said): string {
  return result.conclusion.faults
    .map(({ cause, place, standing, others }) => {
      const first = say(texts, STANDINGS[standing], { cause: causeWords(texts, cause, place) })
      const [rival] = others
      return rival
        ? `${first}; ${say(texts, 'report.record.rival', { cause: causeWords(texts, rival.cause, rival.place) })}`
        : first
    })
    .join('. ')
}

/** Every repair of the log in the technician's words, parts included, with its day. */
export function repairsWords({ result, texts }: Said): string {
  return result.tests
    .filter(({ step }) => step === 'repair')
    .map(({ at, place, note, mark }) =>
      say(texts, 'report.ccc.repair', { date: dateWords(texts, at), work: pair(texts, place, note), mark }),
    )
    .join(' ')
}

/** Codes as the log has them, with the stage of the reading. */
export function codesWords({ result, texts }: Said): string {
  const words = result.tests
    .filter(({ step }) => step === 'code')
    .map(({ readings, stage, mark }) => {
      const codes = readings.map(({ reading }) =>
        reading === 'none' ? say(texts, 'report.reading.none') : reading,
      )
      const when = stage === 'after' ? `, ${say(texts, 'report.tests.after')}` : ''
      return `${codes.join(', ')} (${mark}${when})`
    })
  return series(texts, words)
}
