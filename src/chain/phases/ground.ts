import { groundsOf, type Grounds } from '../../conclusion/conclude.ts'
import { STATE_OF, type Seen, type SeenCylinder } from '../../conclusion/seen.ts'
import { findingStates, type FindingState } from '../../conclusion/words.ts'
import { isTooEarly, workOf, type Work } from '../../conclusion/work.ts'
import type { Job } from '../../job/schema.ts'
import type { Limits } from '../../limits/limits.ts'
import type { TestFinding } from '../../test-log/findings.ts'
import { isHigher, weightOf, type JudgedCylinder } from '../../verdicts/judge-engine.ts'
import type { RepairCheck } from '../../verdicts/repair.ts'
import type { MeasuredCapture } from './measure-captures.ts'

interface Found {
  captures: readonly MeasuredCapture[]
  judged: readonly JudgedCylinder[]
  tests: readonly TestFinding[]
  repair: RepairCheck
}

/** The work on record, and the captures said to be of the state after it that their own time puts before it. */
export function workAndEarly(
  job: Job,
  { captures, tests }: Pick<Found, 'captures' | 'tests'>,
): { work: Work; tooEarly: ReadonlySet<string> } {
  const work = workOf({ tests, captures: captures.map((c) => c.entry), correction: job.correction })
  const early = captures.filter(({ entry }) => isTooEarly({ stage: entry.stage, at: entry.taken }, work))
  return { work, tooEarly: new Set(early.map((c) => c.entry.file)) }
}

/** Gathers everything found, as found and after the work, and judges the repair from it. */
export function ground(job: Job, found: Found, limits: Limits): Grounds {
  const { captures, judged, tests, repair } = found
  const { work, tooEarly } = workAndEarly(job, found)
  const inTime = captures.filter((c) => !tooEarly.has(c.entry.file))
  const seen: Seen = {
    cylinders: Array.from({ length: job.engine.cylinders }, (_, i) => i + 1),
    banks: job.engine.banks,
    judged: seenCylinders(inTime, judged),
    swing: swings(inTime),
    tests,
    tooEarly: new Set(tests.flatMap((t, i) => (isTooEarly(t, work) ? [i] : []))),
    limits,
  }
  return groundsOf(seen, {
    work,
    check: repair,
    tooEarly: [...tooEarly].sort(),
    coldAfter: coldOnly(inTime.filter((c) => c.entry.stage === 'after')),
  })
}

/** Captured, and with a cold engine alone. */
const coldOnly = (captures: readonly MeasuredCapture[]): boolean =>
  captures.length > 0 && captures.every((c) => c.entry.engine === 'cold')

/** Of each cylinder the capture that stands in each state and condition, warm and cold apart: by `weightOf`. */
function seenCylinders(
  captures: readonly MeasuredCapture[],
  judged: readonly JudgedCylinder[],
): SeenCylinder[] {
  const byFile = new Map(captures.map((c) => [c.entry.file, c]))
  const best = new Map<string, JudgedCylinder>()
  for (const one of judged) {
    const capture = byFile.get(one.measures.capture)
    if (!capture) continue
    const { condition, engine } = capture.entry
    const key = JSON.stringify([one.measures.stage, condition, engine, one.measures.cylinder])
    const standing = best.get(key)
    if (!standing || isHigher(weightOf(one), weightOf(standing))) best.set(key, one)
  }
  const all = [...best.values()]
  return all.map((one) => {
    const { measures, judgement } = one
    const capture = byFile.get(measures.capture)!
    const turns = measures.events + (measures.missing ?? 0)
    return {
      state: STATE_OF[measures.stage],
      cylinder: measures.cylinder,
      capture: measures.capture,
      condition: capture.entry.condition,
      engine: capture.entry.engine,
      verdict: judgement.verdict,
      rule: judgement.rule,
      running: one.running,
      basis: judgement.basis,
      reason: judgement.reason,
      figures: measures.figures,
      riseWithSpeed: measures.riseWithSpeed,
      missesPct: turns > 0 ? (100 * (measures.misfires + (measures.missing ?? 0))) / turns : undefined,
      apart: one.apart,
    }
  })
}

/** The swing of the idle capture with the most cycles, by state. */
function swings(captures: readonly MeasuredCapture[]): Seen['swing'] {
  const found = findingStates.flatMap((state): [FindingState, NonNullable<Seen['swing'][FindingState]>][] => {
    const idle = captures
      .filter((c) => STATE_OF[c.entry.stage] === state && c.entry.condition === 'idle')
      .sort((a, b) => cycles(b) - cycles(a) || (a.entry.file < b.entry.file ? -1 : 1))[0]
    return idle ? [[state, { swing: idle.speed.swing, capture: idle.entry.file }]] : []
  })
  return Object.fromEntries(found)
}

const cycles = ({ speed: { mean } }: MeasuredCapture): number => (mean.ok ? mean.n : -1)
