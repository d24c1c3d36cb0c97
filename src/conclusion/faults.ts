import { pointedAt } from '../verdicts/causes/pointed-at.ts'
import { observe } from '../verdicts/causes/observation.ts'
import { candidateKey, type Candidate } from '../verdicts/causes/candidates.ts'
import { ranked, type Ledger, type LedgerEntry } from '../verdicts/causes/ledger.ts'
import type { Robustness } from '../verdicts/causes/robustness.ts'
import type { StandingKind } from '../verdicts/causes/standing.ts'
import type { WeighedCauses } from '../verdicts/causes/weigh-causes.ts'
import type { EvidenceKind } from '../limits/keys.ts'
import { limit, type Limits } from '../limits/limits.ts'
import type { TestFinding } from '../test-log/findings.ts'
import { TRIM_PATTERNS } from '../test-log/steps/trim.ts'
import type { Comparison } from './back-in-order.ts'
import type { Fault, RepairConclusion } from './conclusion.ts'
import { isMeasure, isOfBurns, type NamedFinding } from './finding.ts'
import { APART_FIGURES, type ApartFigure } from '../verdicts/apart/apart-finding.ts'
import { apartEvidence } from '../verdicts/causes/from-captures.ts'
import { FAMILIES, shownByFamily } from '../verdicts/kinds/index.ts'
import { placeOf } from '../verdicts/causes/place-of.ts'
import { standingSays } from './standing-says.ts'
import { isOpen } from './states.ts'
import type { FaultStatus, FindingKind, FindingState, StandingWord } from './words.ts'

/** What each kind of standing lets be said. */
const STANDING_WORD: Readonly<Record<StandingKind, StandingWord>> = {
  clear: 'clear',
  'leading-short': 'leading',
  'leading-on-patterns': 'leading',
  'leading-on-one': 'leading',
  'leading-beside': 'leading',
  'leading-disputed': 'leading',
  'leading-on-weights': 'leading',
  'leading-spoken-against': 'one of several',
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

/** A cause at its places, as one state of the engine speaks for it, before it has a name. */
interface Claim {
  state: FindingState
  of: readonly Candidate[]
  ledger: Ledger
  standing: StandingWord
  share: number
  robustness: Robustness
  others: Fault['others']
}

/**
 * The faults: the first cause at its places, those that were worked on apart from those that were not; one beside it where
 * something found does not follow from the first; and what the car after the work shows that none of these is.
 */
export function faultsOf(input: FaultInput): Fault[] {
  const { weighed, findings } = input
  if (!findings.some(isOpen)) return []
  const asFound = claimsOf(input, { state: 'as found', ...weighed })
  const now = weighed.now ? claimsOf(input, { state: 'after', ...weighed.now }) : []
  const isNew = (claim: Claim) => !asFound.some((a) => isSame(a, claim))
  const kept = asFound.flatMap((claim) => byWork(input, claim))
  const faults = [
    ...kept.map((claim) => fault(input, claim, { stillThere: now.some((n) => isSame(n, claim)) })),
    ...now
      .filter((claim) => isNew(claim) && claim.of[0]!.id !== 'other')
      .map((claim) => fault(input, claim, { stillThere: true })),
  ]
  return faults.map((f, i) => ({ ...f, id: `G${i + 1}`, says: standingSays(f, input.limits) }))
}

/** What one state of the engine puts first, and beside it. */
function claimsOf(
  { weighed, limits }: FaultInput,
  { state, ledger, standing }: Pick<Claim, 'state'> & Pick<WeighedCauses, 'ledger' | 'standing'>,
): Claim[] {
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
    .map(({ candidate, share }) => ({
      cause: candidate.id,
      place: placeOf({ ...weighed, ledger }, candidate) ?? undefined,
      share,
    }))
  const { beside } = standing
  const enough = limit(limits, 'causeClearPct') / 100
  return [
    {
      state,
      of: standing.firsts,
      ledger,
      standing: STANDING_WORD[standing.kind],
      share: shareOf(standing.firsts),
      robustness: standing.robustness,
      others,
    },
    ...(beside
      ? [
          {
            state,
            of: [beside.cause],
            ledger,
            standing: beside.share >= enough ? ('leading' as const) : ('one of several' as const),
            share: beside.share,
            robustness: beside.robustness,
            others: [],
          },
        ]
      : []),
  ]
}

/** The same cause, at a place that both name. */
const isSame = (a: Claim, b: Claim): boolean =>
  a.of.some((x) => b.of.some((y) => candidateKey(x) === candidateKey(y)))

/** A cause at several places of which some were worked on and others not is two matters from then on. */
function byWork(input: FaultInput, claim: Claim): Claim[] {
  const done = claim.of.filter((c) => isWorkedOn(input, c))
  const left = claim.of.filter((c) => !done.includes(c))
  return done.length > 0 && left.length > 0
    ? [
        { ...claim, of: done },
        { ...claim, of: left },
      ]
    : [claim]
}

function fault(
  input: FaultInput,
  claim: Claim,
  { stillThere }: { stillThere: boolean },
): Omit<Fault, 'id' | 'says'> {
  const { weighed, findings } = input
  const { ledger, of, robustness, state } = claim
  const { engine } = weighed.context
  const seats = ledger.candidates.flatMap((c, i) =>
    of.some((f) => candidateKey(f) === candidateKey(c)) ? [i] : [],
  )
  const pushed = (sign: 1 | -1) =>
    findingsOf(
      ledger.entries.filter((e) => e.power > 0 && seats.some((s) => sign * e.push[s]! > 0)),
      findings,
      state,
    )
  const first = of[0]!
  const explains = first.id === 'other' ? [] : pushed(1)
  const status = statusOf(input, of, { explains, stillThere })
  return {
    cause: first.id,
    place: placeOfAll({ ...weighed, ledger }, of),
    cylinders: seatsOf(of, engine.banks),
    // Work on the very cause that left something open speaks against it, whatever the tests before said.
    standing: claim.standing === 'clear' && isUndone(input, status) ? 'leading' : claim.standing,
    share: claim.share,
    shareRange: [robustness.low, robustness.high],
    keepsFirst: robustness.keepsFirst,
    others: claim.others,
    explains,
    against: first.id === 'other' ? [] : pushed(-1).filter((id) => !explains.includes(id)),
    status,
  }
}

/** Its place in words of the records; of several, the cylinders by number, and none where it is every one. */
function placeOfAll(weighed: WeighedCauses, of: readonly Candidate[]): string | undefined {
  if (of.length === 1) return placeOf(weighed, of[0]!) ?? undefined
  const { engine } = weighed.context
  const cylinders = of.flatMap((c) => c.cylinder ?? []).sort((a, b) => a - b)
  if (cylinders.length === engine.cylinders.length) return undefined
  return cylinders.length > 1 ? `cylinders ${cylinders.join(', ')}` : undefined
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

const APART_SHOWN: Readonly<Record<ApartFigure, FindingKind>> = {
  firing_kv: 'firing-voltage',
  burn_ms: 'burn-time',
  coil_cycles: 'oscillation',
}

/** Kinds of finding that evidence of captures speaks of: those its family's verdicts show as, and figures beside them. */
const CAPTURED: ReadonlyMap<EvidenceKind, readonly FindingKind[]> = new Map<
  EvidenceKind,
  readonly FindingKind[]
>([
  ...FAMILIES.flatMap((family) =>
    Object.values(family.weighs).map((kind) => [kind, shownByFamily(family)] as const),
  ),
  ...APART_FIGURES.flatMap((figure) =>
    apartEvidence(figure).map((kind) => [kind, [APART_SHOWN[figure]]] as const),
  ),
  ['idle-swings', ['idle-speed']],
])

/** The findings that entries of the ledger were made from: those of the same tests, or of the same cylinders' captures. */
function findingsOf(
  entries: readonly LedgerEntry[],
  findings: readonly NamedFinding[],
  state: FindingState,
): string[] {
  const of = entries.flatMap(({ observation: o }) => {
    if (o.tests.length > 0)
      return findings.filter(
        (f) => isOpen(f) && (f.tests.some((t) => o.tests.includes(t)) || sameTrims(o, f, state)),
      )
    const kinds = CAPTURED.get(o.kind) ?? []
    return findings.filter(
      (f) =>
        f.state === state &&
        isOpen(f) &&
        kinds.includes(f.kind) &&
        (o.at.kind !== 'cylinders' ||
          f.where.cylinders.some((c) => (o.at as { cylinders: readonly number[] }).cylinders.includes(c))),
    )
  })
  return [...new Set(of.map((f) => f.id))].sort((a, b) => Number(a.slice(1)) - Number(b.slice(1)))
}

const TRIM_EVIDENCE: ReadonlySet<EvidenceKind> = new Set(TRIM_PATTERNS)

/** A pattern of trims stands with the last of its tests, and speaks of all of them. */
const sameTrims = (o: LedgerEntry['observation'], f: NamedFinding, state: FindingState): boolean =>
  TRIM_EVIDENCE.has(o.kind) &&
  f.kind === 'trim' &&
  f.state === state &&
  (o.at.kind !== 'bank' || f.where.bank === o.at.bank)

/**
 * Shown mended where a figure that carried it is back and none is still out; but a reading that measures the fault itself
 * has to have been read again, since nothing else shows it.
 */
function statusOf(
  input: FaultInput,
  of: readonly Candidate[],
  { explains, stillThere }: { explains: readonly string[]; stillThere: boolean },
): FaultStatus {
  const { comparison, repair } = input
  const here = of.some((c) => isWorkedOn(input, c))
  const seats = seatsOf(of, input.weighed.context.engine.banks)
  const borne = comparison.still.filter((s) => explains.includes(s.was.id))
  // of a finding on several cylinders those of this fault alone
  const isBack = (s: (typeof borne)[number]) => seats.length > 0 && seats.every((c) => s.backOn.includes(c))
  const still = borne.filter((s) => !isBack(s))
  const back = comparison.back.some((f) => explains.includes(f.id)) || borne.some(isBack)
  const unread = comparison.notReadAgain.some(
    (f) => (isMeasure(f) || (isOfBurns(f) && repair.verdict === 'not checked')) && explains.includes(f.id),
  )
  if (!stillThere && !unread && (repair.verdict === 'repair confirmed' || (back && still.length === 0)))
    return 'shown mended'
  // a reading that measures it goes on saying that it is so, whatever part of it was renewed
  const isMeasured = still.some((s) => isMeasure(s.is))
  if (here && still.length > 0 && !back && !isMeasured && !still.some((s) => s.better)) return 'contradicted'
  return here ? 'worked on' : 'open'
}

const isWorkedOn = ({ weighed, tests }: FaultInput, cause: Candidate): boolean =>
  tests.some((t) => t.step === 'repair' && t.place !== undefined && isAt(weighed, cause, t.place))

/** Whether a place of the log means this cause at its seat. */
const isAt = ({ context }: WeighedCauses, candidate: Candidate, place: string): boolean =>
  pointedAt(candidate, observe('repair-word-fixed', { at: { kind: 'places', places: [place] } }), context) ===
  1
