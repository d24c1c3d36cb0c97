import type { Limits } from '../limits/limits.ts'
import type { TestFinding } from '../test-log/findings.ts'
import type { Says } from '../test-log/findings.ts'
import type { FollowUp } from '../verdicts/causes/follow-up.ts'
import type { NextTest } from '../verdicts/causes/next-test.ts'
import { placeOf } from '../verdicts/causes/place-of.ts'
import type { WeighedCauses } from '../verdicts/causes/weigh-causes.ts'
import type { RepairCheck } from '../verdicts/repair.ts'
import { compareStates, type Comparison } from './back-in-order.ts'
import type { Conclusion, EngineState, Fault, NextStep, RepairConclusion } from './conclusion.ts'
import { faultsOf } from './faults.ts'
import type { NamedFinding } from './finding.ts'
import { findAll } from './findings/index.ts'
import { headlineOf } from './headline.ts'
import { concludeRepair, REASON_SAYS } from './repair.ts'
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
}

/** Everything found under its name, and the repair judged from all of it. */
export function groundsOf(
  seen: Seen,
  it: { work: Work; check: RepairCheck; tooEarly: readonly string[]; remarks: readonly Says[] },
): Grounds {
  const findings = findAll(seen).map((f, i): NamedFinding => ({
    ...f,
    id: `F${i + 1}`,
    explainedBy: undefined,
  }))
  const comparison = compareStates(findings, it.check.cylinders)
  const after = findings.filter((f) => f.state === 'after')
  const { why, ...repair } = concludeRepair({
    work: it.work,
    check: it.check,
    comparison,
    after: {
      captures: after.some((f) => f.captures.length > 0),
      readings: after.some((f) => f.tests.length > 0),
      tooEarly: it.tooEarly.length > 0,
    },
    saidNotFixed: lastWord(seen.tests) === 'not fixed',
  })
  return {
    seen,
    work: it.work,
    findings,
    comparison,
    repair: { ...repair, reason: { key: REASON_SAYS[why], args: {} }, remarks: it.remarks },
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
  it: { weighed: WeighedCauses; cause: string | undefined; correction: string | undefined; limits: Limits },
): Conclusion {
  const { seen, work, comparison, repair } = grounds
  const faults = faultsOf({ ...it, findings: grounds.findings, comparison, repair, tests: seen.tests })
  const findings = grounds.findings.map((f) => ({
    ...f,
    explainedBy: faults.find((g) => g.explains.includes(f.id))?.id,
  }))
  const asFound: EngineState = { ...stateOf('as found', findings, seen.cylinders), notReadAgain: [] }
  const now = nowOf(grounds, { findings, faults, asFound })
  return {
    findings,
    asFound,
    now,
    faults,
    stated: statedOf({ ...it, faults, repair }),
    repair,
    next: nextOf(it.weighed),
    headline: headlineOf({ findings, asFound, now, faults, repair, work }),
  }
}

/** The state now: as found where nothing was done; not known where nothing was read since; else by what was read after the work. */
function nowOf(
  { seen, work, comparison }: Grounds,
  it: { findings: readonly NamedFinding[]; faults: readonly Fault[]; asFound: EngineState },
): EngineState {
  if (!work.onRecord) return it.asFound
  const notReadAgain = comparison.notReadAgain.map((f) => f.id)
  const after = it.findings.filter((f) => f.state === 'after')
  if (after.length === 0) return { class: 'not known', findings: [], notReadAgain }
  const state = stateOf('after', it.findings, seen.cylinders)
  const open = comparison.notReadAgain.filter((f) => stillOpen(f, it.faults))
  return state.class === 'in order' && open.length > 0
    ? { class: 'suspected', findings: open.map((f) => f.id), notReadAgain }
    : { ...state, notReadAgain }
}

/** A figure that work elsewhere cannot have put right: nothing was done on the fault that explains it. */
const stillOpen = (f: NamedFinding, faults: readonly Fault[]): boolean =>
  isOpen(f) &&
  (f.kind === 'compression' || f.kind === 'fuel-pressure') &&
  faults.some((g) => g.explains.includes(f.id) && g.status === 'open')

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
