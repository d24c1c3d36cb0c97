import type { ReviewRecord } from '../../records/result.ts'
import type { CauseId } from '../../limits/keys.ts'
import type { WordKey } from '../../texts/messages.ts'
import { placeWords } from '../../texts/place-words.ts'
import { say, sayer, wordOf } from '../../texts/say.ts'
import { CAUSE_WORDS } from '../../verdicts/causes/cause-kinds.ts'
import type { VerdictName } from '../../verdicts/verdict-names.ts'
import { VERDICT_WORDS } from '../../verdicts/verdict-words.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { table } from '../blocks/table.ts'
import type { PageInput, Section } from './page-input.ts'
import { dateWords, pair } from './words.ts'

type Texts = PageInput['texts']

/** What persons hold against the report, each beside what the report says, with reason, name and date. */
export function review({ result, texts }: PageInput): Section {
  const t = sayer(texts)
  const reviews = result.review ?? []
  return {
    title: t('report.review.title'),
    level: 2,
    blocks:
      reviews.length === 0
        ? []
        : [
            paragraph(t('report.review.intro'), { keepWithNext: true }),
            table({
              caption: t('report.review.title'),
              columns: [
                { title: t('report.review.what'), grow: 0.8 },
                { title: t('report.review.said'), grow: 1 },
                { title: t('report.review.instead'), grow: 1 },
                { title: t('report.review.reason'), grow: 1.6 },
                { title: t('report.review.by'), grow: 0.7 },
              ],
              rows: reviews.map((entry) => [
                whatWords(texts, entry),
                wordsOf(texts, entry, { word: entry.said, place: entry.said_place }),
                {
                  text: wordsOf(texts, entry, { word: entry.instead, place: entry.place }),
                  strong: !entry.agrees,
                },
                entry.reason,
                { text: entry.by, note: dateWords(texts, entry.at) },
              ]),
            }),
          ],
  }
}

/** One sentence a finding that a person overrules; nothing where they agree. */
export const overruled = ({ result }: PageInput): string[] =>
  (result.review ?? []).filter(({ agrees }) => !agrees).map(({ says }) => says.text)

/** Who overrules anything, each once. */
export const reviewers = ({ result }: PageInput): string[] => [
  ...new Set((result.review ?? []).filter(({ agrees }) => !agrees).map(({ by }) => by)),
]

const STAGES = { before: 'review.as-found', after: 'review.after' } as const satisfies Record<string, WordKey>

const whatWords = (texts: Texts, { of, cylinder, stage }: ReviewRecord): string =>
  of === 'cause'
    ? say(texts, 'report.review.cause')
    : say(texts, 'report.review.cylinder', { cylinder: cylinder!, when: say(texts, STAGES[stage!]) })

function wordsOf(
  texts: Texts,
  { of }: ReviewRecord,
  { word, place }: { word: string | null; place: string | null },
): string {
  if (of === 'verdict')
    return word === null
      ? say(texts, 'review.not-recorded')
      : wordOf(texts, VERDICT_WORDS, word as VerdictName)
  return word === null
    ? say(texts, 'review.none-said')
    : pair(
        texts,
        wordOf(texts, CAUSE_WORDS, word as CauseId),
        place === null ? null : placeWords(texts, place),
      )
}
