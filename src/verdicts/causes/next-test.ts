import { limit, type Limits } from '../../limits/limits.ts'
import { expectedGainBits, updated } from '../../maths/information.ts'
import { candidateKey, type Candidate } from './candidates.ts'
import { ranked, type Ledger, type LedgerContext } from './ledger.ts'
import { isOnPart } from './on-part.ts'
import { isOf, valueFor, type CauseTest } from './schema.ts'
import type { Standing } from './standing.ts'
import type { TestsDone } from './tests-done.ts'

/** One outcome a test can have. */
interface Outcome {
  /** Word of the outcome (text `next-test.<test>.<id>`). */
  id: string
  /** The candidate the outcome names, for a test that finds one. */
  names: Candidate | undefined
  /** How likely it is as things stand. */
  chance: number
  /** The cause that would stand first, and its share. */
  lifts: { candidate: Candidate; share: number }
}

export interface NextTest {
  /** Id of the table. */
  id: string
  /** What it looks at: a cause at its place, or undefined for a test of the whole engine. */
  target: Candidate | undefined
  minutes: number
  cautions: readonly string[]
  outcomes: readonly Outcome[]
  /** Expected gain of information over the causes it was chosen between. */
  gainBits: number
  /** `separates`: chosen between the first two; `tells-most`: among all causes; `beside`: among those of what the first does not explain. */
  why: 'separates' | 'tells-most' | 'beside'
}

/** A test at one target: chance[outcome][candidate]. */
interface Proposal {
  id: string
  test: CauseTest
  target: Candidate | undefined
  outcomes: readonly { id: string; names: Candidate | undefined }[]
  chance: readonly (readonly number[])[]
}

/** Candidates below this share are not worth a test of their own; a bound on the work, without effect on the choice. */
const LEAST_SHARE = 0.01
/** Where two causes hold this much between them, the test that separates these two is wanted. */
const PAIR_SHARE = 0.7

/**
 * The test that tells most for its time: expected gain of information about which cause it is, per minute, over tests
 * not yet done. Undefined where none tells more than a stated least.
 *
 * @param it  `among`: only tests of the first cause's own part
 *
 * @source expected gain: see maths/information.ts; chances and minutes: project-judgement
 */
export function nextTest(
  it: { ledger: Ledger; standing: Standing; done: TestsDone; among?: 'its own part' },
  context: LedgerContext,
  limits: Limits,
): NextTest | undefined {
  const { ledger, standing, done, among } = it
  const { table } = context
  const pair = standing.kind === 'two' ? pairOnly(ledger, standing) : undefined
  const found = foundByTest(ledger, standing, context)
  const open = proposalsFor(ledger, context).filter((p) => !done(p.id, p.test, p.target))
  const proposals = open.filter((p) => !(found && p.test.finds && isOf(table, found, p.test.of)))
  const least = limit(limits, 'nextTestLeastBits')
  const best = (shares: readonly number[], of: readonly Proposal[]) =>
    of
      .map((proposal) => ({ proposal, gainBits: expectedGainBits(shares, proposal.chance) }))
      .filter((p) => p.gainBits >= least && changesSomething(p.proposal, ledger))
      .sort(
        (a, b) =>
          b.gainBits / b.proposal.test.minutes - a.gainBits / a.proposal.test.minutes ||
          (proposalKey(a.proposal) < proposalKey(b.proposal) ? -1 : 1),
      )[0]
  const separating = pair && best(pair, proposals)
  const chosen =
    separating ??
    best(ledger.posterior, ofFirst(proposals, standing, context)) ??
    (among === undefined ? best(ledger.posterior, proposals) : undefined) ??
    (among === undefined && !ONE_LEADS.has(standing.kind) ? best(ledger.posterior, open) : undefined)
  return (
    chosen &&
    described(chosen.proposal, {
      ledger,
      gainBits: chosen.gainBits,
      why: standing.beside ? 'beside' : separating ? 'separates' : 'tells-most',
    })
  )
}

/** Standings in which one cause leads and its own part is to be looked at before anything else. */
const ONE_LEADS: ReadonlySet<Standing['kind']> = new Set([
  'leading-short',
  'leading-on-patterns',
  'leading-spoken-against',
  'leading-on-one',
  'leading-on-weights',
  'leading-disputed',
])

/** The cause that leads where a test of its own part found it: nothing is searched for any more that is found. */
export function foundByTest(
  ledger: Ledger,
  { kind, firsts }: Standing,
  context: LedgerContext,
): string | undefined {
  if (!ONE_LEADS.has(kind) && kind !== 'two' && kind !== 'several') return undefined
  const seats = ledger.candidates.flatMap((c, i) =>
    firsts.some((f) => candidateKey(f) === candidateKey(c)) ? [i] : [],
  )
  const shows = (entry: Ledger['entries'][number]) =>
    seats.some((s) => entry.push[s]! > 0 && isOnPart(entry, ledger.candidates[s]!, context))
  return ledger.entries.some(shows) ? firsts[0]!.id : undefined
}

/** Tests of the part that leads, at its place: what shows it or clears it. */
function ofFirst(
  proposals: readonly Proposal[],
  { kind, firsts }: Standing,
  { table }: LedgerContext,
): readonly Proposal[] {
  const first = firsts[0]!
  if (!ONE_LEADS.has(kind)) return []
  return proposals.filter(
    ({ test, target }) =>
      test.of.length > 0 &&
      isOf(table, first.id, test.of) &&
      (target === undefined || isHere(test, first, target)),
  )
}

/** An outcome less likely than this is not what a test is done for. */
const LEAST_CHANCE = 0.02

/** Whether its outcomes lead to different things: a test after which the same cause comes first, whatever is seen, does not. */
function changesSomething({ chance }: Proposal, ledger: Ledger): boolean {
  const { candidates, posterior } = ledger
  const firsts = chance.flatMap((under) => {
    const { total, shares } = updated(posterior, under)
    if (total < LEAST_CHANCE) return []
    return [candidates[shares.indexOf(Math.max(...shares))]!.id]
  })
  return new Set(firsts).size > 1
}

const proposalKey = ({ id, target }: Proposal): string => `${id} ${target ? candidateKey(target) : ''}`

/** The posterior with the first two causes alone, where they hold most of it. */
function pairOnly({ candidates, posterior }: Ledger, { firsts, second }: Standing): number[] | undefined {
  const keys = new Set([...firsts, second].map(candidateKey))
  const kept = posterior.map((p, i) => (keys.has(candidateKey(candidates[i]!)) ? p : 0))
  const total = kept.reduce((sum, p) => sum + p, 0)
  return total >= PAIR_SHARE ? kept.map((p) => p / total) : undefined
}

/** Every test at every target worth it; a test for certain causes only where one of them has a share worth a test. */
function proposalsFor(ledger: Ledger, context: LedgerContext): Proposal[] {
  const { table } = context
  return Object.entries(table.tests).flatMap(([id, test]): Proposal[] => {
    const worth = ledger.candidates.filter(
      (c, i) => isOf(table, c.id, test.of) && ledger.posterior[i]! >= LEAST_SHARE,
    )
    if (test.of.length > 0 && worth.length === 0) return []
    const { ignition } = context.engine
    if (test.ignitions && ignition && !test.ignitions.includes(ignition)) return []
    if (test.finds) return finding(id, test, { ledger, context })
    const targets = test.at === 'engine' ? [undefined] : onePerPlace(test, worth)
    return targets.map((target) => tabled({ id, test, target }, ledger, context))
  })
}

/** A test of a cylinder is one test whichever cause of that cylinder it is named for. */
const onePerPlace = (test: CauseTest, worth: readonly Candidate[]): Candidate[] =>
  test.at === 'cause' ? [...worth] : [...new Map(worth.map((c) => [c.cylinder, c])).values()]

/** A test that names the place it finds: one outcome a place, one for nothing found. */
function finding(
  id: string,
  test: CauseTest,
  { ledger, context }: { ledger: Ledger; context: LedgerContext },
): Proposal[] {
  const { chance, false: wrong } = test.finds!
  const findable = ledger.candidates.filter(
    (c, i) => isOf(context.table, c.id, test.of) && ledger.posterior[i]! >= LEAST_SHARE,
  )
  // A round of one place is the test of that place.
  if (findable.length === 1 && test.step === 'spray') return []
  const named = findable.map((names) =>
    ledger.candidates.map((c) =>
      c === names
        ? chance
        : findable.includes(c)
          ? (wrong * (1 - chance)) / findable.length
          : wrong / findable.length,
    ),
  )
  return [
    {
      id,
      test,
      target: undefined,
      outcomes: [...findable.map((names) => ({ id: 'found', names })), { id: 'nothing', names: undefined }],
      chance: [...named, remainder(named, ledger.candidates.length)],
    },
  ]
}

function tabled(
  { id, test, target }: Pick<Proposal, 'id' | 'test' | 'target'>,
  ledger: Ledger,
  { table }: LedgerContext,
): Proposal {
  const outcomes = test.outcomes!
  const named = outcomes.slice(0, -1).map((outcome) =>
    ledger.candidates.map((c) => {
      const value =
        c.id === 'other'
          ? outcome.otherwise!
          : valueFor(table, { of: outcome.chance!, otherwise: outcome.otherwise!, cause: c.id })
      return typeof value === 'number' ? value : isHere(test, c, target) ? value.here : value.elsewhere
    }),
  )
  return {
    id,
    test,
    target,
    outcomes: outcomes.map((o) => ({ id: o.id, names: undefined })),
    chance: [...named, remainder(named, ledger.candidates.length)],
  }
}

function isHere(test: CauseTest, candidate: Candidate, target: Candidate | undefined): boolean {
  if (!target) return true
  return test.at === 'cylinder'
    ? candidate.cylinder === target.cylinder
    : candidateKey(candidate) === candidateKey(target)
}

const remainder = (named: readonly (readonly number[])[], states: number): number[] =>
  Array.from({ length: states }, (_, i) => 1 - named.reduce((sum, under) => sum + under[i]!, 0))

/** What each outcome would mean; a test that finds names the likeliest places and nothing more. */
const MOST_NAMED = 3

function described(
  { id, test, target, outcomes, chance }: Proposal,
  it: { ledger: Ledger; gainBits: number; why: NextTest['why'] },
): NextTest {
  const { ledger, gainBits, why } = it
  const all = outcomes.map((outcome, i): Outcome => {
    const { total, shares } = updated(ledger.posterior, chance[i]!)
    const first = ranked({ ...ledger, posterior: shares })[0]!
    return { ...outcome, chance: total, lifts: { candidate: first.candidate, share: first.share } }
  })
  const named = all
    .filter((o) => o.names)
    .sort((a, b) => b.chance - a.chance)
    .slice(0, MOST_NAMED)
  return {
    id,
    target,
    minutes: test.minutes,
    cautions: test.cautions,
    gainBits,
    why,
    outcomes: [...named, ...all.filter((o) => !o.names)],
  }
}
