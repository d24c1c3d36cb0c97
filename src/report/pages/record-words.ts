import type { Result } from '../../records/result.ts'
import type { Arg, KeyNeeding, TextKey, WordKey } from '../../texts/messages.ts'
import { placeWords } from '../../texts/place-words.ts'
import { say, sayAgain, wordOf } from '../../texts/say.ts'
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

/** Each fault's likeliest cause with how firmly it stands, and its nearest rival; of one fault, a rival far behind too. */
export function causesFound({ result, texts }: Said): string {
  const { faults } = result.conclusion
  const far = faults.length === 1 ? result.causes.slice(1).find(({ id }) => id !== 'other') : undefined
  return faults
    .map(({ cause, place, standing, others }) => {
      const first = say(texts, STANDINGS[standing], { cause: causeWords(texts, cause, place) })
      const [rival] = others
      if (rival)
        return series(texts, [
          first,
          say(texts, 'report.record.rival', { cause: causeWords(texts, rival.cause, rival.place) }),
        ])
      return far
        ? series(texts, [
            first,
            say(texts, 'report.record.rival-far', { cause: causeWords(texts, far.id, far.place) }),
          ])
        : first
    })
    .join('. ')
}

/** Results named for or against a cause; the annex names all, with their weights. */
const MOST_RESULTS = 4

/** What speaks for the cause named first, the strongest first, with its marks. */
export const speaksWords = (said: Said): string => resultsWords(said, 'for')

/** What speaks against it; that nothing does, where a cause was named. */
export const againstWords = (said: Said): string =>
  resultsWords(said, 'against') ||
  (said.result.conclusion.faults.length > 0 && said.result.causes.length > 0
    ? say(said.texts, 'report.record.nothing-against')
    : '')

function resultsWords({ result, texts }: Said, side: 'for' | 'against'): string {
  const [first] = result.causes
  if (!first || result.conclusion.faults.length === 0) return ''
  const all = first[side]
  const shown = all
    .slice(0, MOST_RESULTS)
    .map(({ args }) => sayAgain(texts, { key: 'report.record.result' satisfies TextKey, args }))
  const more = all.length - shown.length
  return [...shown, ...(more > 0 ? [say(texts, 'report.record.more-results', { count: more })] : [])].join(
    ' ',
  )
}

/** The next step with its reason and minutes, and which cause each outcome would put first; or that there is none. */
export function nextWords({ result, texts }: Said): string {
  const { next_test: next, conclusion } = result
  if (next === null) return conclusion.page_one.next.map(({ text }) => text).join(' ')
  return [next.says.text, ...outcomesWords(texts, next.outcomes)].join(' ')
}

/** Outcomes that put the same cause first are told together, without its share: a share is no measure of chance. */
export function outcomesWords(
  texts: Texts,
  outcomes: NonNullable<Result['next_test']>['outcomes'],
): string[] {
  const weighed = outcomes.filter(({ says: { args } }) => 'first' in args && 'outcome' in args)
  const plain = outcomes.filter((outcome) => !weighed.includes(outcome))
  const groups = new Map<string, typeof weighed>()
  for (const outcome of weighed) {
    const cause = JSON.stringify(outcome.says.args['cause'])
    groups.set(cause, [...(groups.get(cause) ?? []), outcome])
  }
  return [
    ...[...groups.values()].map((alike) => {
      const said = alike.map(({ says: { args } }) =>
        sayAgain(texts, { key: 'report.record.outcome-alone' satisfies TextKey, args }),
      )
      return say(texts, 'report.record.outcome', {
        outcomes: said.join(say(texts, 'report.record.or')),
        first: sayAgain(texts, {
          key: 'report.record.outcome-first' satisfies TextKey,
          args: alike[0]!.says.args,
        }),
      })
    }),
    ...plain.map(({ says }) => says.text),
  ]
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
