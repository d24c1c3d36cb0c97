import type { Family } from '../families/define-family.ts'
import type { Verdict } from './define-verdict.ts'
import { borderline } from './borderline.ts'
import { externalResistance } from './external-resistance.ts'
import { falling } from './falling.ts'
import { lean } from './lean.ts'
import { level } from './level.ts'
import { lowCompression } from './low-compression.ts'
import { misfiring } from './misfiring.ts'
import { notJudged } from './not-judged.ts'
import { openSecondary } from './open-secondary.ts'
import { rich } from './rich.ts'

/** Every verdict on a cylinder, in the order of the records' words. */
export const VERDICTS = [
  level,
  lean,
  falling,
  rich,
  lowCompression,
  borderline,
  externalResistance,
  openSecondary,
  misfiring,
  notJudged,
] as const
export type VerdictName = (typeof VERDICTS)[number]['name']

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
