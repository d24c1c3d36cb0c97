import type { Family } from '../families/define-family.ts'
import type { Shown, Verdict } from './define-verdict.ts'
import { VERDICTS, type VerdictName } from './all.ts'

export { VERDICTS, type VerdictName }

const BY_NAME: ReadonlyMap<string, Verdict> = new Map(VERDICTS.map((v) => [v.name, v]))

/** All that belongs to a verdict. */
export const verdictOf = (name: VerdictName): Verdict => BY_NAME.get(name)!

/** One property of every verdict, by its word. */
export const ofVerdicts = <T>(pick: (verdict: Verdict) => T): Readonly<Record<VerdictName, T>> =>
  Object.fromEntries(VERDICTS.map((v) => [v.name, pick(v)])) as Record<VerdictName, T>

/** What a verdict makes of the cylinder. */
export const ORDER: Readonly<Record<VerdictName, Verdict['order']>> = ofVerdicts((v) => v.order)
export const isJudged = (name: VerdictName): boolean => ORDER[name] !== 'not known'

/** The family of a verdict that says what is wrong. */
export const FAMILY: Readonly<Record<VerdictName, Family | undefined>> = ofVerdicts((v) => v.family)
/** Every family that a verdict belongs to, in the order of the verdicts. */
export const FAMILIES: readonly Family[] = [...new Set(VERDICTS.flatMap((v: Verdict) => v.family ?? []))]

/** Verdicts that show as findings of one kind, by the way these lie, in the order of the verdicts. */
export const shownAs = (kind: Shown['kind']): ReadonlyMap<Shown['direction'], VerdictName[]> => {
  const of = new Map<Shown['direction'], VerdictName[]>()
  for (const { name, shows } of VERDICTS as readonly Verdict<VerdictName>[])
    if (shows?.kind === kind) of.set(shows.direction, [...(of.get(shows.direction) ?? []), name])
  return of
}

/** Kinds of finding that a family's verdicts show as. */
export const shownByFamily = (family: Family): Shown['kind'][] => [
  ...new Set(VERDICTS.flatMap((v: Verdict) => (v.family === family && v.shows ? v.shows.kind : []))),
]
