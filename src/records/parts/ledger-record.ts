import { sentence, sentenceOf } from '../../texts/messages.ts'
import type { Args, Sentence, TextKey } from '../../texts/messages.ts'
import { sayAgain } from '../../texts/say.ts'
import type { StandingKind } from '../../verdicts/causes/standing.ts'
import type { Says } from '../../test-log/findings.ts'
import { limit, type Limits } from '../../limits/limits.ts'
import type { Texts } from '../../texts/messages.ts'
import { placeOf } from '../../verdicts/causes/place-of.ts'
import { ruledOut as causesRuledOut } from '../../verdicts/causes/ruled-out.ts'
import type { WeighedCauses } from '../../verdicts/causes/weigh-causes.ts'
import { toDigits } from '../round.ts'
import type { Result } from '../result.ts'
import { bareName, nameOf, namesOf, quotedName } from './cause-names.ts'
import { evidenceSays, shownCauses } from './cause-records.ts'
import { statement } from './statement.ts'

/** Everything of the ledger that the ranked causes do not show: what may be said, what it depends on, what was ruled out and how it came about. */
export function ledgerRecord(texts: Texts, weighed: WeighedCauses, limits: Limits): Result['ledger'] {
  const { ledger, standing, changed } = weighed
  const shown = shownCauses(weighed)
  return {
    kind: standing.kind,
    standing: statement(texts, standingSays(weighed, limits)),
    rest_probability: toDigits(Math.max(0, 1 - shown.reduce((sum, s) => sum + s.share, 0)), 4),
    entries: ledger.entries.map((entry) => ({
      says: statement(texts, evidenceSays(entry)),
      group: weighed.context.table.evidence[entry.observation.kind]!.group,
      power: toDigits(entry.power, 4),
      tests: [...entry.observation.tests],
      factors: shown.map((s) => toDigits(Math.exp(entry.push[s.index]!), 4)),
    })),
    sensitivity: standing.sensitivity.map((s) =>
      statement(
        texts,
        sentence('standing.sensitive', {
          entry: entryOf(weighed, s.entry),
          first: quotedName(weighed, s.first),
        }),
      ),
    ),
    contradictions: ledger.entries
      .filter((e) => e.observation.contradicted)
      .map((e) => statement(texts, sentence('standing.contradicted', { entry: evidenceSays(e) }))),
    ruled_out: ruledOut(texts, weighed),
    chain: weighed.chain.map((link) => ({
      after: typeof link.after === 'string' ? link.after : 'test',
      test: typeof link.after === 'string' ? null : link.after.test,
      moved: link.moved,
      id: link.first.id,
      place: placeOf(weighed, link.first),
      name: sayAgain(texts, nameOf(weighed, link.first)),
      probability: toDigits(link.share, 4),
    })),
    overridden: changed.length
      ? statement(texts, sentence('standing.overridden', { entries: changed.join(', ') }))
      : null,
    origin: statement(texts, sentence('standing.judgement')),
  }
}

/** What an entry of the ledger says. */
const entryOf = ({ ledger }: WeighedCauses, index: number): Sentence => evidenceSays(ledger.entries[index]!)

const STANDING_SAYS: Readonly<Record<StandingKind, TextKey>> = {
  nothing: 'standing.nothing',
  clear: 'standing.clear',
  'leading-short': 'standing.leading-short',
  'leading-on-patterns': 'standing.leading-on-patterns',
  'leading-spoken-against': 'standing.leading-spoken-against',
  'leading-on-one': 'standing.leading-on-one',
  'leading-contradicted': 'standing.leading-contradicted',
  'leading-disputed': 'standing.leading-disputed',
  'leading-on-weights': 'standing.leading-on-weights',
  'leading-beside': 'standing.leading-beside',
  two: 'standing.two',
  several: 'standing.several',
  'not-listed': 'standing.not-listed',
}

/** What may be said of the first place. */
function standingSays(weighed: WeighedCauses, limits: Limits): Says {
  const { standing } = weighed
  const { firsts, second, share, secondShare, kind, restsOn, beside } = standing
  const args = {
    first: namesOf(weighed, firsts),
    percent: 100 * share,
    second: quotedName(weighed, second),
    secondPercent: 100 * secondShare,
  }
  const rest: Args = restsOn
    ? { entry: entryOf(weighed, restsOn.entry), without: quotedName(weighed, restsOn.first) }
    : {}
  const also: Args = beside
    ? { entry: entryOf(weighed, beside.entry), beside: quotedName(weighed, beside.cause) }
    : {}
  return sentenceOf(STANDING_SAYS[kind], {
    ...args,
    ...rest,
    ...also,
    otherPercent: 100 * (1 - standing.robustness.keepsFirst),
    limitPct: limit(limits, 'causeClearPct'),
  })
}

/** Causes that their own part speaks against, with the most telling findings on it. */
const ruledOut = (
  texts: Texts,
  { ledger, standing, context }: WeighedCauses,
): Result['ledger']['ruled_out'] =>
  causesRuledOut(ledger, context, standing.beside?.cause.id).map(({ id, share, by }) => ({
    id,
    name: statement(texts, bareName(id)),
    probability: toDigits(share, 3),
    by: by
      .slice(0, 2)
      .map((e) => ({ says: statement(texts, evidenceSays(e.entry)), factor: toDigits(Math.exp(e.push), 4) })),
  }))
