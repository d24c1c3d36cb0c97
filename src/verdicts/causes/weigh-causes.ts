import type { Limits } from '../../limits/limits.ts'
import { gatherFacts } from '../../test-log/facts.ts'
import type { TestFinding } from '../../test-log/findings.ts'
import { candidateKey, type Candidate } from './candidates.ts'
import type { EngineLayout } from './engine-layout.ts'
import { followUp, repairBoth, type FollowUp } from './follow-up.ts'
import { fromCaptures, type CapturePicture } from './from-captures.ts'
import { fromFacts } from './from-facts.ts'
import { fromRepair, type RepairPicture } from './from-repair.ts'
import { fromIdleTrims } from './from-trims.ts'
import { ranked, weigh, type Ledger, type LedgerContext } from './ledger.ts'
import { nextTest, type NextTest } from './next-test.ts'
import type { Observation } from './observation.ts'
import type { CausesInForce } from './override.ts'
import { standingOf, type Standing } from './standing.ts'
import { testsDone } from './tests-done.ts'

/** All that causes are weighed from. */
export interface CauseInput {
  engine: EngineLayout
  captures: CapturePicture
  /** In the order of time. */
  tests: readonly TestFinding[]
  repair: RepairPicture
}

/** A step that changes the first cause's share by less is no link of the chain. */
const LEAST_MOVE = 0.005

/** First place after a step: the captures, each test that bears on causes, the check of the repair. */
export interface ChainLink {
  after: 'captures' | 'repair check' | { test: number }
  first: Candidate
  share: number
  moved: boolean
}

export interface WeighedCauses {
  ledger: Ledger
  standing: Standing
  next: NextTest | FollowUp | undefined
  chain: readonly ChainLink[]
  changed: readonly string[]
  context: LedgerContext
}

/**
 * Weighs the causes: what was seen, the ledger, what may be said of it, and what to do next.
 * The same observations in another order give the same result.
 */
export function weighCauses(
  input: CauseInput,
  { table, changed }: CausesInForce,
  limits: Limits,
): WeighedCauses {
  const context = { table, engine: input.engine }
  const ledger = weigh(observationsOf(input, limits), context)
  const standing = standingOf(ledger, context, limits)
  const repaired = input.tests.some((t) => t.step === 'repair')
  const judged = input.captures.cylinders.some((c) => c.verdict !== 'not judged')
  const follow = followUp(standing, { repair: input.repair.verdict, repaired, judged, table })
  const next =
    follow === 'nothing left'
      ? undefined
      : (follow ??
        nextTest(
          {
            ledger: standing.beside?.ledger ?? ledger,
            standing,
            done: testsDone(
              input.tests.filter((t) => t.stage === 'before'),
              context,
            ),
          },
          context,
          limits,
        ) ??
        (standing.beside ? repairBoth(standing, table) : undefined))
  return { ledger, standing, next, chain: chainOf(input, context, limits), changed, context }
}

/** Everything seen, from captures, log and repair. */
export function observationsOf(
  { engine, captures, tests, repair }: CauseInput,
  limits: Limits,
): Observation[] {
  const facts = gatherFacts(tests)
  return [
    ...fromCaptures(captures, engine, limits),
    ...fromFacts(facts, engine),
    ...fromIdleTrims(tests, engine, limits),
    ...fromRepair(tests, facts, { repair, limits }),
  ]
}

/** How the first place came about: the ledger again with the captures, then with each further test, then with the repair check. */
function chainOf(input: CauseInput, context: LedgerContext, limits: Limits): ChainLink[] {
  const unchecked: RepairPicture = { ...input.repair, verdict: 'not checked' }
  const upTo = (count: number, repair: RepairPicture) =>
    weigh(observationsOf({ ...input, tests: input.tests.slice(0, count), repair }, limits), context)
  const stages: { after: ChainLink['after']; ledger: Ledger }[] = [
    ...(input.captures.cylinders.length ? [{ after: 'captures' as const, ledger: upTo(0, unchecked) }] : []),
    ...input.tests.map((_, i) => ({ after: { test: i }, ledger: upTo(i + 1, unchecked) })),
    ...(input.repair.verdict === 'not checked'
      ? []
      : [{ after: 'repair check' as const, ledger: upTo(input.tests.length, input.repair) }]),
  ]
  const start = ranked(weigh([], context))[0]!
  const tops = stages.map(({ ledger }) => ranked(ledger)[0]!)
  return stages.map(({ after }, i) => {
    const top = tops[i]!
    const last = i === 0 ? start : tops[i - 1]!
    const moved =
      candidateKey(last.candidate) !== candidateKey(top.candidate) ||
      Math.abs(last.share - top.share) >= LEAST_MOVE
    return { after, first: top.candidate, share: top.share, moved }
  })
}
