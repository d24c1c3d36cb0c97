import type { Result } from '../../../../src/records/result.ts'
import type { Truth } from '../compose.ts'

/** All that a predicate may look at. */
export interface Seen {
  result: Result
  cylindersCsv: string
  testsCsv: string
  /** Words of page one, where it was drawn. */
  page: string | undefined
  /** Undefined of a job nobody composed. */
  truth: Truth | undefined
}

/** Something that must hold of every report. */
export interface Predicate {
  id: string
  /** Each breach in a few words; none where it holds. */
  breaches(seen: Seen): string[]
}

export type Conclusion = NonNullable<Result['conclusion']>
export type Finding = Conclusion['findings'][number]

/** @throws Error where a result has none: every report has to */
export const conclusionOf = ({ result }: Seen): Conclusion => {
  if (!result.conclusion) throw new Error('a result without a conclusion')
  return result.conclusion
}

export const ODD: ReadonlySet<string> = new Set([
  'lean',
  'falling',
  'rich',
  'low compression',
  'external resistance',
  'open secondary',
  'misfiring',
])

/** The verdict of each cylinder in a stage: one that shows a fault before any other, a judged one before one that was not. */
export function verdictsIn(result: Result, stage: 'before' | 'after'): ReadonlyMap<number, string> {
  const out = new Map<number, string>()
  for (const { stage: of, cylinder, verdict } of result.cylinders)
    if (of === stage && weight(verdict) > weight(out.get(cylinder))) out.set(cylinder, verdict)
  return out
}

const weight = (verdict: string | undefined): number =>
  verdict === undefined ? 0 : verdict === 'not judged' ? 1 : ODD.has(verdict) ? 3 : 2

/** Whether anything tells of work. */
export const worked = ({ result }: Seen): boolean =>
  result.tests.some(({ step }) => step === 'repair') ||
  result.job.correction !== null ||
  result.captures.some(({ stage }) => stage === 'after') ||
  result.tests.some(({ stage }) => stage === 'after')

/**
 * Faults of a composed job that its record shows in a stage. A capture that the program could not judge shows nothing: how
 * many these are is printed by the bench, and none of them may be called in order.
 */
export function shownIn({ result, truth }: Seen, stage: 'before' | 'after') {
  const verdicts = verdictsIn(result, stage)
  const judged = (c: number) => !['not judged', 'borderline'].includes(verdicts.get(c) ?? 'not judged')
  return (truth?.shown ?? []).filter(
    (s) => s.stage === stage && (s.by !== 'capture' || s.fault.cylinders.some(judged)),
  )
}
