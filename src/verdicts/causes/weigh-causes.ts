import type { Limits } from '../../limits/limits.ts'
import { gatherFacts } from '../../test-log/facts.ts'
import type { TestFinding } from '../../test-log/findings.ts'
import { FAMILY, isJudged } from '../kinds/index.ts'
import { candidateKey, type Candidate } from './candidates.ts'
import type { EngineLayout } from './engine-layout.ts'
import {
  canRepairFirst,
  catchIt,
  checkWork,
  followUp,
  repairBoth,
  repairFirst,
  testAgain,
  type FollowUp,
  type StateNow,
} from './follow-up.ts'
import { fromCaptures, type CapturePicture } from './from-captures.ts'
import { fromFacts } from './from-facts.ts'
import { fromRepair, fromWork, type RepairPicture } from './from-repair.ts'
import { fromIdleTrims } from './from-trims.ts'
import { leading, weigh, type Ledger, type LedgerContext } from './ledger.ts'
import { foundByTest, nextTest, type NextTest } from './next-test.ts'
import type { Observation } from './observation.ts'
import { factsOfStates, standingTests } from './of-state.ts'
import type { CausesInForce } from './override.ts'
import { ofWeighedPlaces } from '../../test-log/place/weighed-places.ts'
import { standingOf, type Standing } from './standing.ts'
import { followUpDone, testsDone, workedOn, workElsewhere } from './tests-done.ts'

/** All that causes are weighed from. */
export interface CauseInput {
  engine: EngineLayout
  /** As found, and after the work. */
  captures: CapturePicture
  after: CapturePicture
  /** In the order of time. */
  tests: readonly TestFinding[]
  repair: RepairPicture
}

/** A step that changes the first cause's share by less is no link of the chain. */
const LEAST_MOVE = 0.005

/** Of a log with more tests than any work on one car has, the chain is told in so many stretches: a bound on the work. */
const EACH_TEST_UP_TO = 200
const STRETCHES = 40

/** First place after a step: the captures, each test that bears on causes (of an endless log each stretch of tests, by its last), the check of the repair. */
interface ChainLink {
  after: 'captures' | 'repair check' | { test: number }
  first: Candidate
  share: number
  moved: boolean
}

/** Causes weighed in one state of the engine. */
interface Weighed {
  ledger: Ledger
  standing: Standing
}

export interface WeighedCauses extends Weighed {
  /** The car as it stands now, where something read after the work is out of order; else it is as weighed. */
  now: Weighed | undefined
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
  whole: CauseInput,
  { table, changed }: CausesInForce,
  limits: Limits,
): WeighedCauses {
  const input = { ...whole, tests: ofWeighedPlaces(whole.tests) }
  const context = { table, engine: input.engine }
  const seen = observationsOf(input, context, limits)
  const asFound = weighed(seen.asFound, context, limits)
  const now = seen.now && weighed(seen.now, context, limits)
  const next = nextStep(input, { ...(now ?? asFound), isNow: now !== undefined }, { context, limits })
  return { ...asFound, now, next, chain: chainOf(input, context, limits), changed, context }
}

function weighed(observations: readonly Observation[], context: LedgerContext, limits: Limits): Weighed {
  const ledger = weigh(observations, context)
  return { ledger, standing: standingOf(ledger, context, limits) }
}

/** What follows from the state of the car now: a follow-up, or the test that tells most, or the repair of what leads. */
function nextStep(
  input: CauseInput,
  { ledger, standing, isNow }: Weighed & { isNow: boolean },
  { context, limits }: { context: LedgerContext; limits: Limits },
): NextTest | FollowUp | undefined {
  const { tests, repair, captures, after } = input
  const { table } = context
  const elsewhere = workElsewhere(tests, context)
  const repaired = tests.some((t) => t.step === 'repair' && !elsewhere.includes(t.place ?? ''))
  const current = standingTests(tests, isNow)
  const state: StateNow = {
    standing,
    repair: repair.verdict,
    repaired,
    wrongNow: isNow || after.cylinders.some((c) => FAMILY[c.verdict] !== undefined),
    odd: captures.cylinders.some((c) => FAMILY[c.verdict] !== undefined),
    judged: captures.cylinders.some((c) => isJudged(c.verdict)),
    levelAfter: repair.levelAfter ?? false,
    openAfter: repair.openAfter ?? true,
    leftUnread: repair.leftUnread ?? true,
    nothingWrong: repair.nothingWrong ?? false,
    answered: current.some(
      (t) => t.finding === 'response' && ANSWERS.has(t.step) && !t.stage.startsWith('after'),
    ),
    measured: measures(ledger, standing.firsts, context),
    isDone: followUpDone(current, context),
    isWorkedOn: workedOn(tests, context),
    table,
  }
  const follow = followUp(state)
  if (follow === 'nothing left') return undefined
  // clear of the car now, beside a cause as found that may not be
  if (follow) return isNow && follow.id === 'repair-and-capture' ? { ...follow, why: OF_NOW } : follow
  const done = testsDone(current, context)
  const repairable = canRepairFirst(state)
  const tested = TESTED.has(standing.kind) || foundByTest(ledger, standing, context) !== undefined
  const among = repairable && tested ? { among: 'its own part' as const } : {}
  const best = nextTest(
    { ledger: standing.beside?.ledger ?? ledger, standing, done, ...among },
    context,
    limits,
  )
  if (best) return best
  if (standing.beside) return repairBoth(standing, table)
  if (repairable) return repairFirst(standing, table)
  if (standing.kind === 'leading-spoken-against' && !state.isWorkedOn(standing.firsts[0]!))
    return testAgain(standing, table)
  if (repaired && (state.wrongNow || repair.openAfter)) return checkWork(standing, table)
  return standing.kind === 'not-listed' ? catchIt(table) : undefined
}

const OF_NOW = 'next-test.repair-and-capture.why-now'

/** Tests to which a place answers. */
const ANSWERS: ReadonlySet<TestFinding['step']> = new Set(['spray', 'smoke', 'cap'])

/** Standings of a cause that a test of its part speaks for: once its own tests are done, it is repaired before others are looked for. */
const TESTED: ReadonlySet<Standing['kind']> = new Set(['leading-on-one', 'leading-on-weights'])

/** Whether a reading that measures a cause itself speaks for the first. */
const measures = (
  { candidates, entries }: Ledger,
  firsts: readonly Candidate[],
  { table }: LedgerContext,
): boolean => {
  const seats = candidates.flatMap((c, i) => (firsts.includes(c) ? [i] : []))
  return entries.some(
    ({ observation, push, power }) =>
      table.evidence[observation.kind]!.direct && power === 1 && seats.some((s) => push[s]! > 0),
  )
}

/** Everything seen that speaks of the fault as found, and of the car now, from captures, log and repair. */
function observationsOf(
  { engine, captures, after, tests, repair }: CauseInput,
  context: LedgerContext,
  limits: Limits,
): { asFound: Observation[]; now: Observation[] | undefined } {
  const facts = gatherFacts(tests)
  const trimsAfter = fromIdleTrims(tests, { engine, stage: 'after' }, limits)
  const trimsOut = trimsAfter.some((o) => o.kind !== 'trim-idle-in-order')
  const parted = factsOfStates({ facts, tests, verdict: repair.verdict, after, trimsOut, context })
  const wasOdd = captures.cylinders.some((c) => FAMILY[c.verdict] !== undefined)
  return {
    asFound: [
      ...fromCaptures(captures, engine, limits),
      ...fromFacts(parted.asFound, engine),
      ...fromIdleTrims(tests, { engine, stage: 'before' }, limits),
      ...fromRepair(tests, facts, { repair, wasOdd, limits }),
    ],
    now: parted.now && [
      ...fromCaptures(after, engine, limits),
      ...fromFacts(parted.now, engine),
      ...trimsAfter,
      ...fromWork(facts),
    ],
  }
}

/** The tests after which the ledger is told, by index. */
const toldTests = (count: number): number[] =>
  count <= EACH_TEST_UP_TO
    ? Array.from({ length: count }, (_, i) => i)
    : Array.from({ length: STRETCHES }, (_, i) => Math.ceil(((i + 1) * count) / STRETCHES) - 1)

/** How the first place came about: the ledger again with the captures, then with each further test, then with the repair check. */
function chainOf(input: CauseInput, context: LedgerContext, limits: Limits): ChainLink[] {
  const unchecked: RepairPicture = { verdict: 'not checked', restsOn: 'nothing' }
  const upTo = (count: number, repair: RepairPicture) =>
    weigh(
      observationsOf({ ...input, tests: input.tests.slice(0, count), repair }, context, limits).asFound,
      context,
    )
  const stages: { after: ChainLink['after']; ledger: Ledger }[] = [
    ...(input.captures.cylinders.length ? [{ after: 'captures' as const, ledger: upTo(0, unchecked) }] : []),
    ...toldTests(input.tests.length).map((i) => ({ after: { test: i }, ledger: upTo(i + 1, unchecked) })),
    ...(input.repair.verdict === 'not checked'
      ? []
      : [{ after: 'repair check' as const, ledger: upTo(input.tests.length, input.repair) }]),
  ]
  const start = leading(weigh([], context), context.table)
  const tops = stages.map(({ ledger }) => leading(ledger, context.table))
  return stages.map(({ after }, i) => {
    const top = tops[i]!
    const last = i === 0 ? start : tops[i - 1]!
    const moved =
      candidateKey(last.candidate) !== candidateKey(top.candidate) ||
      Math.abs(last.share - top.share) >= LEAST_MOVE
    return { after, first: top.candidate, share: top.share, moved }
  })
}
