import type { EvidenceKind } from '../../limits/keys.ts'
import { EVIDENCE_SAYS } from '../../verdicts/causes/evidence-says.ts'
import { bareName } from './cause-names.ts'
import { statement } from './statement.ts'
import { sentence, sentenceOf, type Sentence, type Texts } from '../../texts/messages.ts'
import { ranked, type LedgerEntry } from '../../verdicts/causes/ledger.ts'
import { placeOf } from '../../verdicts/causes/place-of.ts'
import type { WeighedCauses } from '../../verdicts/causes/weigh-causes.ts'
import { toDigits } from '../round.ts'
import type { Result, Statement } from '../result.ts'
import { marksOfTests } from './marks.ts'

/** Causes below this share are gathered with all others; what spoke against them stands under what was ruled out. */
const LEAST_SHOWN = 0.01
const MOST_SHOWN = 8
/** Evidence that moves a cause less than this says nothing worth a line. */
const LEAST_FACTOR = 1.15

type Ranked = ReturnType<typeof ranked>[number]

/** Candidates the result names: the first by share, a second fault that may stand beside them, and always what is not in the list. */
export function shownCauses({ ledger, standing }: WeighedCauses): Ranked[] {
  const all = ranked(ledger)
  const isFirst = (o: Ranked) => standing.firsts.includes(o.candidate)
  // parts that wear as a set come first together: one line with the share of all
  const [best, ...rest] = isFirst(all[0]!) ? [] : all.filter(isFirst)
  const order =
    best === undefined
      ? all
      : [
          {
            ...best,
            candidate: { ...best.candidate, cylinder: undefined },
            share: rest.reduce((sum, o) => sum + o.share, best.share),
          },
          ...all.filter((o) => !isFirst(o)),
        ]
  const kept = order.filter(
    (o, i) => (i < MOST_SHOWN && o.share >= LEAST_SHOWN) || o.candidate === standing.beside?.cause,
  )
  return kept.some((o) => o.candidate.id === 'other')
    ? kept
    : [...kept, order.find((o) => o.candidate.id === 'other')!]
}

/**
 * Ranked causes, each with its name and what speaks for and against it, the strongest first.
 *
 * @param captures  marks of the captures of the engine as found: evidence that names no test rests on these
 */
export function causeRecords(texts: Texts, weighed: WeighedCauses, captures: string): Result['causes'] {
  return shownCauses(weighed).map(({ candidate, share, index }) => {
    const pushes = weighed.ledger.entries
      .map((entry) => ({ entry, push: entry.push[index]! }))
      .sort((a, b) => Math.abs(b.push) - Math.abs(a.push))
    const side = (sign: 1 | -1) =>
      pushes
        .filter((p) => sign * p.push >= Math.log(LEAST_FACTOR))
        .map((p) => pushStatement(texts, p.entry, { push: p.push, captures }))
    return {
      id: candidate.id,
      place: placeOf(weighed, candidate),
      probability: toDigits(share, 4),
      name: statement(texts, bareName(candidate.id)),
      for: side(1),
      against: side(-1),
    }
  })
}

/** What an entry of the ledger says. */
export const evidenceSays = ({ observation: { kind, args } }: LedgerEntry): Sentence =>
  sentenceOf(EVIDENCE_SAYS[kind as EvidenceKind], args)

/** The same with the marks of what it rests on, and how many times likelier (or less likely) it makes a cause than something not in the list. */
function pushStatement(
  texts: Texts,
  entry: LedgerEntry,
  { push, captures }: { push: number; captures: string },
): Statement {
  return statement(
    texts,
    sentence(push > 0 ? 'evidence.factor-for' : 'evidence.factor-against', {
      evidence: evidenceSays(entry),
      marks: marksOfTests(entry.observation.tests) || captures,
      factor: Math.exp(Math.abs(push)),
    }),
  )
}
