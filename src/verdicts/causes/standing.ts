import { limit, type Limits } from '../../limits/limits.ts'
import { candidateKey, type Candidate } from './candidates.ts'
import { leading, ranked, without, type Ledger, type LedgerContext } from './ledger.ts'
import { isOnPart } from './on-part.ts'
import { pointedAt } from './pointed-at.ts'
import { robustnessOf, type Robustness } from './robustness.ts'
import { secondFault, type SecondFault } from './second-fault.ts'

/** An entry of the ledger without which another cause would stand first. */
interface Sensitivity {
  entry: number
  first: Candidate
}

export type StandingKind =
  /** Nothing that bears on causes was seen. */
  | 'nothing'
  /** One cause, by share and margin, tested at the part, and no single entry left out would change that. */
  | 'clear'
  /** First by the margin, but: short of the share; by patterns alone; by patterns that a test of the very part speaks
   * against; resting on one entry; on tests that contradict one another; on two methods that disagree; on weights being
   * just what the table has. */
  | 'leading-short'
  | 'leading-on-patterns'
  | 'leading-spoken-against'
  | 'leading-on-one'
  | 'leading-contradicted'
  | 'leading-disputed'
  | 'leading-on-weights'
  /** First, but something found does not follow from it and speaks strongly for another cause: two faults may be there. */
  | 'leading-beside'
  /** Two within the margin, or more. */
  | 'two'
  | 'several'
  /** Nothing listed fits the evidence better than something else. */
  | 'not-listed'

export interface Standing {
  kind: StandingKind
  /** The first cause, at every place where it stands within the margin (both cylinders of a gasket between them). */
  firsts: readonly Candidate[]
  share: number
  /** What the share comes to, and how often the cause stays first, when weights and priors are off. */
  robustness: Robustness
  /** The best of all others. */
  second: Candidate
  secondShare: number
  sensitivity: readonly Sensitivity[]
  /** The entry a `leading-on-one` rests on, and the cause that would come first or close without it. */
  restsOn: Sensitivity | undefined
  /** Of a `leading-beside`. */
  beside: SecondFault | undefined
}

/** Standings that say one cause is first and nothing of a second fault yet. */
const ONE_FIRST: ReadonlySet<StandingKind> = new Set([
  'clear',
  'leading-short',
  'leading-on-patterns',
  'leading-on-one',
  'leading-on-weights',
])

/** Standings without one first: two faults, each plain in the sparks of its own cylinders, look so to a ledger of one. */
const MORE_FIRST: ReadonlySet<StandingKind> = new Set(['two', 'several'])

const BURN = 'burn'

/** Whether what the captures show speaks for the first cause, and something else in them for the one beside it. */
function bothBurn(ledger: Ledger, firsts: readonly Candidate[], beside: SecondFault): boolean {
  const speaksFor = (cause: Candidate, but?: Candidate) => {
    const seat = (c: Candidate) => ledger.candidates.findIndex((x) => candidateKey(x) === candidateKey(c))
    return ledger.entries.some(
      ({ group, observation, push }) =>
        group === BURN &&
        observation.tests.length === 0 &&
        push[seat(cause)]! > 0 &&
        (but === undefined || push[seat(but)]! < 0),
    )
  }
  return speaksFor(firsts[0]!, beside.cause) && speaksFor(beside.cause, firsts[0]!)
}

type Order = ReturnType<typeof ranked>

/**
 * What may be said of the first place. A cause is called clear only when its share and its lead are large, some test of
 * the part itself speaks for it, no test of it is contradicted, and leaving out any single entry leaves it first by a
 * margin; an entry that measures the cause itself may carry it alone. It must stay first with weights and priors off too. Where something found does not follow from it and
 * speaks strongly for another cause, both are named. Never says more than the evidence.
 */
export function standingOf(ledger: Ledger, context: LedgerContext, limits: Limits): Standing {
  const margin = limit(limits, 'causeMarginRatio')
  const place = placesOf(ledger, margin, context)
  const spared = ledger.entries.map((_, entry) => ({
    entry,
    ...placesOf(without(ledger, entry, context), margin, context),
  }))
  const sensitivity = spared
    .filter(
      (s) => !place.firsts.some((f) => candidateKey(f.candidate) === candidateKey(s.firsts[0]!.candidate)),
    )
    .map((s): Sensitivity => ({ entry: s.entry, first: s.firsts[0]!.candidate }))
  const firsts = place.firsts.map((f) => f.candidate)
  const robustness = robustnessOf(ledger, firsts, {
    factor: limit(limits, 'weightsOffFactor'),
    lapse: context.table.lapse,
  })
  const found = kindOf({ ledger, place, spared, margin, robustness }, context, limits)
  const also = secondFault(ledger, firsts, { context, limits })
  const beside =
    also && (ONE_FIRST.has(found.kind) || (MORE_FIRST.has(found.kind) && bothBurn(ledger, firsts, also)))
      ? also
      : undefined
  return {
    ...(beside ? { kind: 'leading-beside', restsOn: undefined } : found),
    beside,
    sensitivity,
    firsts,
    share: place.share,
    robustness,
    second: place.second.candidate,
    secondShare: place.second.share,
  }
}

interface Place {
  firsts: Order
  share: number
  second: Order[number]
}

/** The first cause at all its places within the margin, and the best of the rest. */
function placesOf(ledger: Ledger, margin: number, { table }: LedgerContext): Place {
  const order = ranked(ledger)
  const first = leading(ledger, table)
  const firsts = order.filter((o) => o.candidate.id === first.candidate.id && o.share * margin > first.share)
  return {
    firsts,
    share: firsts.reduce((sum, f) => sum + f.share, 0),
    second: order.find((o) => !firsts.includes(o))!,
  }
}

interface Found {
  ledger: Ledger
  place: Place
  spared: readonly (Place & { entry: number })[]
  margin: number
  robustness: Robustness
}

function kindOf(
  { ledger, place, spared, margin, robustness }: Found,
  context: LedgerContext,
  limits: Limits,
): Pick<Standing, 'kind' | 'restsOn'> {
  const kind = (is: StandingKind, restsOn?: Sensitivity) => ({ kind: is, restsOn })
  const { firsts, share, second } = place
  const first = firsts[0]!
  const enough = limit(limits, 'causeClearPct') / 100
  if (ledger.entries.every((e) => e.power === 0)) return kind('nothing')
  if (first.candidate.id === 'other') return kind('not-listed')
  if (share < margin * second.share)
    return kind(second.candidate.id !== 'other' && share + second.share >= enough ? 'two' : 'several')
  if (firsts.some((f) => isContradicted(ledger, f.candidate, context))) return kind('leading-contradicted')
  if (isSpokenAgainst(ledger, first, context)) return kind('leading-spoken-against')
  if (share < enough) return kind('leading-short')
  const tested = ledger.entries.some(
    ({ observation, push }) =>
      showsPart(observation.kind, context) && push[first.index]! > push[second.index]!,
  )
  if (!tested) return kind('leading-on-patterns')
  const rests = spared.find(
    (s) =>
      !carries(ledger, { entry: s.entry, first: first.index }, context) &&
      (!s.firsts.some((f) => f.index === first.index) ||
        s.share < limit(limits, 'causeSparedRatio') * s.second.share),
  )
  if (!rests) {
    if (firsts.some((f) => isDisputed(ledger, f.candidate, context))) return kind('leading-disputed')
    const holds = robustness.keepsFirst >= limit(limits, 'clearKeepsFirstPct') / 100
    return kind(holds ? 'clear' : 'leading-on-weights')
  }
  const same = rests.firsts[0]!.candidate.id === first.candidate.id
  return kind('leading-on-one', {
    entry: rests.entry,
    first: (same ? rests.second : rests.firsts[0]!).candidate,
  })
}

const showsPart = (kind: string, { table }: LedgerContext): boolean =>
  table.groups[table.evidence[kind]!.group]!.shows === 'part'

/** A test must make the cause at least so many times less likely to speak against it. */
const AGAINST_FACTOR = 2

/** Whether a test of the cause's own part, at its place, speaks against it and none for it. */
function isSpokenAgainst(
  ledger: Ledger,
  { candidate, index }: { candidate: Candidate; index: number },
  context: LedgerContext,
): boolean {
  const own = ledger.entries.filter((e) => isOnPart(e, candidate, context))
  const shown = ledger.entries.some((e) => e.push[index]! > 0 && showsPart(e.observation.kind, context))
  return !shown && own.some((e) => e.push[index]! <= -Math.log(AGAINST_FACTOR))
}

/** An entry that measures the cause itself and speaks for it. */
function carries(
  ledger: Ledger,
  { entry, first }: { entry: number; first: number },
  { table }: LedgerContext,
): boolean {
  const { observation, power, push } = ledger.entries[entry]!
  return table.evidence[observation.kind]!.direct && power === 1 && push[first]! > 0
}

const isDisputed = (ledger: Ledger, first: Candidate, context: LedgerContext): boolean =>
  ledger.entries.some(({ observation: o }) => o.disputed && pointedAt(first, o, context) > 0)

const isContradicted = (ledger: Ledger, first: Candidate, context: LedgerContext): boolean =>
  ledger.entries.some(
    ({ observation: o }) => o.contradicted && o.at.kind !== 'engine' && pointedAt(first, o, context) > 0,
  )
