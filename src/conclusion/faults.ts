import { pointedAt } from '../verdicts/causes/pointed-at.ts'
import { observe } from '../verdicts/causes/observation.ts'
import { candidateKey, type Candidate } from '../verdicts/causes/candidates.ts'
import { ranked, type LedgerEntry } from '../verdicts/causes/ledger.ts'
import type { StandingKind } from '../verdicts/causes/standing.ts'
import type { WeighedCauses } from '../verdicts/causes/weigh-causes.ts'
import { limit, type Limits } from '../limits/limits.ts'
import type { TestFinding } from '../test-log/findings.ts'
import type { Comparison } from './back-in-order.ts'
import type { Fault, RepairConclusion } from './conclusion.ts'
import type { NamedFinding } from './finding.ts'
import { placeOf } from '../verdicts/causes/place-of.ts'
import { isOpen } from './states.ts'
import type { FaultStatus, FindingKind, StandingWord } from './words.ts'

/** What each kind of standing lets be said. */
export const STANDING_WORD: Readonly<Record<StandingKind, StandingWord>> = {
  clear: 'clear',
  'leading-short': 'leading',
  'leading-on-patterns': 'leading',
  'leading-on-one': 'leading',
  'leading-beside': 'leading',
  'leading-disputed': 'leading',
  'leading-on-weights': 'leading',
  'leading-contradicted': 'one of several',
  two: 'one of several',
  several: 'one of several',
  'not-listed': 'open',
  nothing: 'open',
}

/** A share below this is no cause that the evidence leaves room for. */
const LEAST_OTHER = 0.05
const MOST_OTHERS = 3

interface FaultInput {
  weighed: WeighedCauses
  findings: readonly NamedFinding[]
  comparison: Comparison
  repair: Pick<RepairConclusion, 'verdict'>
  tests: readonly TestFinding[]
  limits: Limits
}

/** The faults: the first cause at its places, and one beside it where something found does not follow from the first. */
export function faultsOf(input: FaultInput): Fault[] {
  const { weighed, findings } = input
  if (!findings.some(isOpen)) return []
  const { standing, ledger } = weighed
  const order = ranked(ledger)
  const shareOf = (of: readonly Candidate[]) =>
    order
      .filter((o) => of.some((c) => candidateKey(c) === candidateKey(o.candidate)))
      .reduce((s, o) => s + o.share, 0)
  const others = order
    .filter(
      (o) => o.share >= LEAST_OTHER && o.candidate.id !== 'other' && !standing.firsts.includes(o.candidate),
    )
    .slice(0, MOST_OTHERS)
  const first = fault(input, {
    id: 'G1',
    of: standing.firsts,
    standing: STANDING_WORD[standing.kind],
    share: shareOf(standing.firsts),
    range: [standing.robustness.low, standing.robustness.high],
    others,
  })
  const { beside } = standing
  if (!beside) return [first]
  const enough = limit(input.limits, 'causeClearPct') / 100
  return [
    first,
    fault(input, {
      id: 'G2',
      of: [beside.cause],
      standing: beside.share >= enough ? 'leading' : 'one of several',
      share: beside.share,
      range: undefined,
      others: [],
    }),
  ]
}

function fault(
  input: FaultInput,
  it: Pick<Fault, 'id' | 'standing' | 'share'> & {
    range: Fault['shareRange']
    of: readonly Candidate[]
    others: readonly { candidate: Candidate; share: number }[]
  },
): Fault {
  const { weighed, findings } = input
  const { ledger, context } = weighed
  const seats = ledger.candidates.flatMap((c, i) =>
    it.of.some((f) => candidateKey(f) === candidateKey(c)) ? [i] : [],
  )
  const pushed = (sign: 1 | -1) =>
    findingsOf(
      ledger.entries.filter((e) => e.power > 0 && seats.some((s) => sign * e.push[s]! > 0)),
      findings,
    )
  const first = it.of[0]!
  const explains = first.id === 'other' ? [] : pushed(1)
  const status = statusOf(input, it.of, explains)
  return {
    id: it.id,
    cause: first.id,
    place: placeOf(weighed, first) ?? undefined,
    cylinders: seatsOf(it.of, context.engine.banks),
    // Work on the very cause that left something open speaks against it, whatever the tests before said.
    standing: it.standing === 'clear' && isUndone(input, status) ? 'leading' : it.standing,
    share: it.share,
    shareRange: it.range,
    others: it.others.map(({ candidate, share }) => ({
      cause: candidate.id,
      place: placeOf(weighed, candidate) ?? undefined,
      share,
    })),
    explains,
    against: first.id === 'other' ? [] : pushed(-1).filter((id) => !explains.includes(id)),
    status,
  }
}

const isUndone = ({ comparison }: FaultInput, status: FaultStatus): boolean =>
  status === 'contradicted' || (status === 'worked on' && comparison.still.length > 0)

const seatsOf = (
  of: readonly Candidate[],
  banks: Readonly<Record<string, readonly number[]>> | undefined,
): number[] =>
  [
    ...new Set(
      of.flatMap((c) =>
        c.cylinder !== undefined ? [c.cylinder] : c.bank !== undefined ? (banks?.[c.bank] ?? []) : [],
      ),
    ),
  ].sort((a, b) => a - b)

/** Kinds of finding that evidence of captures speaks of, by the words its kinds begin or end with. */
const CAPTURED: readonly { of: RegExp; kind: FindingKind }[] = [
  { of: /^burn-.*-(lean|falling)$/, kind: 'mixture' },
  { of: /^burn-.*-falling$/, kind: 'compression' },
  { of: /^burn-.*-circuit$/, kind: 'circuit' },
  { of: /^burn-.*-misfiring$/, kind: 'misfire' },
  { of: /^firing-/, kind: 'firing-voltage' },
  { of: /^idle-swings$/, kind: 'idle-speed' },
]

/** The findings that entries of the ledger were made from: those of the same tests, or of the same cylinders' captures. */
function findingsOf(entries: readonly LedgerEntry[], findings: readonly NamedFinding[]): string[] {
  const of = entries.flatMap(({ observation: o }) => {
    if (o.tests.length > 0)
      return findings.filter(
        (f) => isOpen(f) && (f.tests.some((t) => o.tests.includes(t)) || sameTrims(o, f)),
      )
    const kinds = CAPTURED.filter((c) => c.of.test(o.kind)).map((c) => c.kind)
    return findings.filter(
      (f) =>
        f.state === 'as found' &&
        isOpen(f) &&
        kinds.includes(f.kind) &&
        (o.at.kind !== 'cylinders' ||
          f.where.cylinders.some((c) => (o.at as { cylinders: readonly number[] }).cylinders.includes(c))),
    )
  })
  return [...new Set(of.map((f) => f.id))].sort((a, b) => Number(a.slice(1)) - Number(b.slice(1)))
}

/** A pattern of trims stands with the last of its tests, and speaks of all of them. */
const sameTrims = (o: LedgerEntry['observation'], f: NamedFinding): boolean =>
  o.kind.startsWith('trim') &&
  f.kind === 'trim' &&
  f.state === 'as found' &&
  (o.at.kind !== 'bank' || f.where.bank === o.at.bank)

function statusOf(
  { weighed, comparison, repair, tests }: FaultInput,
  of: readonly Candidate[],
  explains: readonly string[],
): FaultStatus {
  const worked = tests.filter((t) => t.step === 'repair' && t.place !== undefined)
  const here = worked.some((t) => of.some((c) => isAt(weighed, c, t.place!)))
  const back = comparison.back.some((f) => explains.includes(f.id))
  const still = comparison.still.filter((s) => explains.includes(s.was.id))
  if (repair.verdict === 'repair confirmed' || (back && still.length === 0)) return 'shown mended'
  if (here && still.length > 0 && !back && !still.some((s) => s.better)) return 'contradicted'
  return here ? 'worked on' : 'open'
}

/** Whether a place of the log means this cause at its seat. */
export const isAt = ({ context }: WeighedCauses, candidate: Candidate, place: string): boolean =>
  pointedAt(candidate, observe('repair-word-fixed', { at: { kind: 'places', places: [place] } }), context) ===
  1
