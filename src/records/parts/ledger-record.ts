import type { Says } from '../../test-log/findings.ts'
import { limit, type Limits } from '../../limits/limits.ts'
import type { Texts } from '../../texts/messages.ts'
import { sayLoose } from '../../texts/say.ts'
import { placeOf } from '../../verdicts/causes/place-of.ts'
import { ruledOut as causesRuledOut } from '../../verdicts/causes/ruled-out.ts'
import type { WeighedCauses } from '../../verdicts/causes/weigh-causes.ts'
import { toDigits } from '../round.ts'
import type { Result, Statement } from '../result.ts'
import { nameOf, namesOf, quotedName } from './cause-names.ts'
import { evidenceStatement, shownCauses } from './cause-records.ts'
import { statement } from './statement.ts'

/** Everything of the ledger that the ranked causes do not show: what may be said, what it hangs on, what was ruled out and how it came about. */
export function ledgerRecord(texts: Texts, weighed: WeighedCauses, limits: Limits): Result['ledger'] {
  const { ledger, standing, changed } = weighed
  const shown = shownCauses(weighed)
  return {
    kind: standing.kind,
    standing: statement(texts, standingSays(texts, weighed, limits)),
    rest_probability: toDigits(Math.max(0, 1 - shown.reduce((sum, s) => sum + s.share, 0)), 4),
    entries: ledger.entries.map((entry) => ({
      says: evidenceStatement(texts, entry),
      group: weighed.context.table.evidence[entry.observation.kind]!.group,
      power: toDigits(entry.power, 4),
      tests: [...entry.observation.tests],
      factors: shown.map((s) => toDigits(Math.exp(entry.push[s.index]!), 4)),
    })),
    sensitivity: standing.sensitivity.map((s) =>
      statement(texts, {
        key: 'standing.sensitive',
        args: { entry: entryText(texts, weighed, s.entry), first: quotedName(texts, weighed, s.first) },
      }),
    ),
    contradictions: ledger.entries
      .filter((e) => e.observation.contradicted)
      .map((e) =>
        statement(texts, { key: 'standing.contradicted', args: { entry: evidenceStatement(texts, e).text } }),
      ),
    ruled_out: ruledOut(texts, weighed),
    chain: weighed.chain.map((link) => ({
      after: typeof link.after === 'string' ? link.after : 'test',
      test: typeof link.after === 'string' ? null : link.after.test,
      moved: link.moved,
      id: link.first.id,
      place: placeOf(weighed, link.first),
      name: nameOf(texts, weighed, link.first),
      probability: toDigits(link.share, 4),
    })),
    overridden: changed.length
      ? statement(texts, { key: 'standing.overridden', args: { entries: changed.join(', ') } })
      : null,
    origin: statement(texts, { key: 'standing.judgement', args: {} }),
  }
}

/** What an entry of the ledger says, to stand within another sentence. */
const entryText = (texts: Texts, { ledger }: WeighedCauses, index: number): string =>
  evidenceStatement(texts, ledger.entries[index]!).text.replace(/\.$/, '')

/** What may be said of the first place. */
function standingSays(texts: Texts, weighed: WeighedCauses, limits: Limits): Says {
  const { standing } = weighed
  const { firsts, second, share, secondShare, kind, restsOn, beside } = standing
  const args = {
    first: namesOf(texts, weighed, firsts),
    percent: 100 * share,
    second: quotedName(texts, weighed, second),
    secondPercent: 100 * secondShare,
  }
  const rest: Record<string, string> = restsOn
    ? { entry: entryText(texts, weighed, restsOn.entry), without: quotedName(texts, weighed, restsOn.first) }
    : {}
  const also: Record<string, string> = beside
    ? { entry: entryText(texts, weighed, beside.entry), beside: quotedName(texts, weighed, beside.cause) }
    : {}
  return {
    key: `standing.${kind}`,
    args: {
      ...args,
      ...rest,
      ...also,
      otherPercent: 100 * (1 - standing.robustness.keepsFirst),
      limitPct: limit(limits, 'causeClearPct'),
    },
  }
}

/** Causes that their own part speaks against, with the most telling findings on it. */
const ruledOut = (
  texts: Texts,
  { ledger, standing, context }: WeighedCauses,
): Result['ledger']['ruled_out'] =>
  causesRuledOut(ledger, context, standing.beside?.cause.id).map(({ id, share, by }) => ({
    id,
    name: { key: `cause.${id}`, args: {}, text: sayLoose(texts, `cause.${id}`) } satisfies Statement,
    probability: toDigits(share, 3),
    by: by
      .slice(0, 2)
      .map((e) => ({ says: evidenceStatement(texts, e.entry), factor: toDigits(Math.exp(e.push), 4) })),
  }))
