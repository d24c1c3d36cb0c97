import type { Sentence } from '../texts/args.ts'
import { ownWords, sentence } from '../texts/messages.ts'
import { STEP_KINDS } from '../test-log/steps/index.ts'
import type { Limits } from '../limits/limits.ts'
import type { TestFinding } from '../test-log/findings.ts'
import type { Says } from '../test-log/findings.ts'
import { causeKind } from '../verdicts/causes/cause-kinds.ts'
import type { FollowUp } from '../verdicts/causes/follow-up.ts'
import type { NextTest } from '../verdicts/causes/next-test.ts'
import type { LedgerContext } from '../verdicts/causes/ledger.ts'
import { readPlace } from '../verdicts/causes/place-words.ts'
import { workElsewhere } from '../verdicts/causes/tests-done.ts'
import { placeOf } from '../verdicts/causes/place-of.ts'
import type { WeighedCauses } from '../verdicts/causes/weigh-causes.ts'
import { leftCapped } from '../verdicts/leak-hunt/leak-hunt.ts'
import type { CylinderRepair, RepairCheck } from '../verdicts/repair.ts'
import { compareStates, type Comparison } from './back-in-order.ts'
import type { Conclusion, EngineState, Fault, NextStep, RepairConclusion } from './conclusion.ts'
import { faultsOf } from './faults.ts'
import { isMeasure, isOfBurns, type NamedFinding } from './finding.ts'
import { findAll } from './findings/index.ts'
import { headlineOf, leadingFindings } from './headline.ts'
import { pageOneOf, type PageOneInput } from './page-one.ts'
import { remarksOf } from './remarks.ts'
import { concludeRepair, REASON_SAYS } from './repair.ts'
import { shortSays } from './say-finding.ts'
import type { Seen } from './seen.ts'
import { isOpen, stateOf } from './states.ts'
import { statedOf } from './stated.ts'
import type { NextKind } from './words.ts'
import type { Work } from './work.ts'

/** What is known before causes are weighed: everything found, and the repair judged from it. */
export interface Grounds {
  seen: Seen
  work: Work
  findings: readonly NamedFinding[]
  comparison: Comparison
  repair: RepairConclusion
  /** The captures' own check with what the other findings add to it. */
  check: RepairCheck
}

/** Rows of the log that read nothing of the engine. */
const NO_READING: ReadonlySet<TestFinding['step']> = new Set(['repair', 'note', 'photo', 'uncap'])

/** Everything found under its name, and the repair judged from all of it. */
export function groundsOf(
  seen: Seen,
  it: { work: Work; check: RepairCheck; tooEarly: readonly string[]; coldAfter: boolean },
): Grounds {
  const findings = findAll(seen).map((f, i): NamedFinding => ({
    ...f,
    id: `F${i + 1}`,
    explainedBy: undefined,
  }))
  const comparison = withCodesRead(compareStates(findings, it.check.cylinders), seen)
  const after = findings.filter((f) => f.state === 'after')
  const repair = concludeRepair({
    work: it.work,
    check: it.check,
    comparison,
    after: {
      captures: after.some((f) => f.captures.length > 0),
      readings: seen.tests.some(
        (t, i) => t.stage === 'after' && !seen.tooEarly.has(i) && !NO_READING.has(t.step),
      ),
      tooEarly: it.tooEarly.length > 0 || seen.tooEarly.size > 0,
    },
    saidNotFixed: lastWord(seen.tests) === 'not fixed',
  })
  return {
    seen,
    work: it.work,
    findings,
    comparison,
    check: {
      ...it.check,
      verdict: repair.verdict,
      cylinders: it.check.cylinders.map((c) => withFigures(c, comparison)),
    },
    repair: { ...repair, reason: sentence(REASON_SAYS[repair.why]), remarks: remarksOf(seen, it) },
  }
}

/** Codes stored as found and not among those read after the work were read again; that they are gone shows nothing mended. */
const withCodesRead = (comparison: Comparison, { tests, tooEarly }: Seen): Comparison =>
  tests.some(({ step, stage }, i) => step === 'code' && stage === 'after' && !tooEarly.has(i))
    ? { ...comparison, notReadAgain: comparison.notReadAgain.filter(({ kind }) => kind !== 'code') }
    : comparison

/** A cylinder without a verdict to mend, mended anyway where another of its figures was out of order and is back. */
function withFigures(cylinder: CylinderRepair, { back, still, appeared }: Comparison): CylinderRepair {
  const of = (f: NamedFinding) => f.where.cylinders.includes(cylinder.cylinder) && isOfBurns(f)
  if (cylinder.verdict !== 'no change' || !back.some(of)) return cylinder
  const open = [...still.map((s) => s.is), ...appeared.map((a) => a.is)].some(of)
  return { ...cylinder, verdict: open ? 'improved, not in order' : 'repair confirmed' }
}

/**
 * What the state after the work leaves to look at: whether every cylinder was captured again and is in order, so that more
 * captures would tell nothing, and whether something found before, which the work did not touch, was not read again.
 */
export function leftAfter({ seen, work, findings, comparison, repair }: Grounds): {
  levelAfter: boolean
  nothingWrong: boolean
  leftUnread: boolean
  openAfter: boolean
} {
  const worked = new Set(seen.tests.flatMap((t) => (t.step === 'repair' ? [t.place] : [])))
  return {
    levelAfter:
      repair.why === 'not-read-again' && stateOf('after', findings, seen.cylinders).class === 'in order',
    openAfter: repair.opposes.length > 0,
    nothingWrong: !work.onRecord && stateOf('as found', findings, seen.cylinders).class === 'in order',
    leftUnread: comparison.notReadAgain.some(
      (f) => isMeasure(f) || (f.kind === 'leak' && !worked.has(f.where.place)),
    ),
  }
}

/** What the technician notes of the last repair. */
function lastWord(tests: readonly TestFinding[]): string | undefined {
  const last = tests.findLast((t) => t.step === 'repair')
  return last?.facts?.find((f) => f.kind === 'repair')?.outcome
}

/** The one conclusion of the job, from what was found, the repair, and the causes weighed from both. */
export function conclude(
  grounds: Grounds,
  it: {
    weighed: WeighedCauses
    cause: string | undefined
    correction: string | undefined
    limits: Limits
    /** Ignition events recorded. */
    events: number
    captures: PageOneInput['captures']
  },
): Conclusion {
  const { seen, work, comparison, repair } = grounds
  const faults = faultsOf({ ...it, findings: grounds.findings, comparison, repair, tests: seen.tests })
  const findings = grounds.findings.map((f) => ({
    ...f,
    explainedBy: faults.find((g) => g.explains.includes(f.id))?.id,
  }))
  const asFound: EngineState = {
    ...stateOf('as found', findings, seen.cylinders),
    notReadAgain: [],
    says: stateSays(
      findings.filter((f) => f.state === 'as found'),
      seen,
    ),
  }
  const now = nowOf(grounds, { findings, faults, asFound })
  const stated = statedOf({ ...it, faults, repair })
  const next = nextOf(it.weighed)
  const all = { findings, asFound, now, faults, stated, repair, next }
  return {
    ...all,
    headline: headlineOf({ ...all, work }),
    pageOne: pageOneOf({
      ...all,
      work,
      cylinders: seen.cylinders,
      captures: it.captures,
      events: it.events,
      observed: seen.tests.some((t) => t.observed),
      unread: seen.tests.filter(bearsOnNothing).map(rowSays),
      leftCapped: leftCapped(seen.tests, it.weighed.context),
      isBrakes: brakesIn(it.weighed.context),
      elsewhere: workElsewhere(seen.tests, it.weighed.context, it.correction),
      back: new Set(comparison.back.map((f) => f.id)),
    }),
  }
}

/** Steps whose rows are never evidence by themselves. */
const NO_EVIDENCE: ReadonlySet<TestFinding['step']> = new Set(['repair', 'uncap', 'code'])

/** A test that could weigh and does not: its words were not understood, or it lacks the limits it needs. */
const bearsOnNothing = ({ step, facts = [], finding }: TestFinding): boolean =>
  finding === 'recorded' &&
  facts.length === 0 &&
  STEP_KINDS[step].evidence.length > 0 &&
  !NO_EVIDENCE.has(step)

const rowSays = ({ step, place, condition }: TestFinding): Sentence => {
  const title = sentence(STEP_KINDS[step].title)
  const at = place ?? condition
  return at === undefined ? title : sentence('log-row.at', { step: title, place: ownWords(at) })
}

/** Whether a place in the technician's words means the brake servo or its hose. */
const brakesIn =
  (context: LedgerContext) =>
  (place: string): boolean =>
    readPlace(place, {
      ...context,
      among: Object.keys(context.table.causes).filter((id) => context.table.causes[id]!.places.length > 0),
    }).causes.some((id) => causeKind(id)?.touches === 'brakes')

/** The state now: as found where nothing was done; not known where nothing was read since; else by what was read after the work. */
function nowOf(
  { seen, work, comparison }: Grounds,
  it: { findings: readonly NamedFinding[]; faults: readonly Fault[]; asFound: EngineState },
): EngineState {
  if (!work.onRecord) return it.asFound
  const notReadAgain = comparison.notReadAgain.map((f) => f.id)
  const after = it.findings.filter((f) => f.state === 'after')
  const says = stateSays(after, seen)
  if (after.length === 0) return { class: 'not known', findings: [], notReadAgain, says }
  const state = stateOf('after', it.findings, seen.cylinders)
  const open = comparison.notReadAgain.filter((f) => stillOpen(f, it.faults))
  const unseen = comparison.notReadAgain.filter((f) => isOfBurns(f) && !isSeenIn(f, after))
  if (state.class === 'in order' && unseen.length > 0)
    return { class: 'not known', findings: unseen.map((f) => f.id), notReadAgain, says }
  return state.class === 'in order' && open.length > 0
    ? { class: 'suspected', findings: open.map((f) => f.id), notReadAgain, says }
    : { ...state, notReadAgain, says }
}

/** A state in a few words: what is open in it, else that it is in order, not known, or that nothing was recorded. */
function stateSays(findings: readonly NamedFinding[], { cylinders }: Seen): Says[] {
  if (findings.length === 0) return [sentence('state.nothing')]
  const leading = leadingFindings(findings)
  if (leading.length) return leading.map(shortSays)
  const { class: is } = stateOf(findings[0]!.state, findings, cylinders)
  return [sentence(is === 'in order' ? 'state.in-order' : 'state.not-known')]
}

/** Whether the cylinders of a finding were recorded after the work as they were when it was made: level lines at 2500 rpm do not speak for the idle. */
const isSeenIn = (f: NamedFinding, after: readonly NamedFinding[]): boolean =>
  f.where.cylinders.every((c) =>
    after.some((a) => isOfBurns(a) && a.condition === f.condition && a.where.cylinders.includes(c)),
  )

/** A figure that work elsewhere cannot have put right: nothing was done on the fault that explains it. */
const stillOpen = (f: NamedFinding, faults: readonly Fault[]): boolean =>
  isOpen(f) && isMeasure(f) && faults.some((g) => g.explains.includes(f.id) && g.status === 'open')

const WORK_STEPS: ReadonlySet<string> = new Set(['repair-and-capture', 'repair-both'])
const CAPTURE_STEPS: ReadonlySet<string> = new Set([
  'capture-after',
  'capture-before',
  'capture-when-it-shows',
])

function nextOf(weighed: WeighedCauses): NextStep {
  const next: NextTest | FollowUp | undefined = weighed.next
  if (!next) return { kind: 'none', id: undefined, place: undefined, minutes: undefined }
  const kind: NextKind = WORK_STEPS.has(next.id) ? 'work' : CAPTURE_STEPS.has(next.id) ? 'capture' : 'test'
  return {
    kind,
    id: next.id,
    place: (next.target && placeOf({ ...weighed, ...weighed.now }, next.target)) ?? undefined,
    minutes: next.minutes,
  }
}
