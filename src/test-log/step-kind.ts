import type { EvidenceKind } from '../limits/keys.ts'
import type { WordKey } from '../texts/messages.ts'
import type { Danger } from '../job/dangers.ts'
import type { TestFinding } from './findings.ts'
import type { StepContext, TestGroup } from './test-group.ts'

/** What a step's `reading` may be and the units its value may carry. */
export interface ReadingKind {
  /** Known words, as suggestions for a mistyped one. */
  words: readonly string[]
  accepts: (reading: string) => boolean
  /** Units of the value; empty where the reading has none. */
  units: (reading: string) => readonly string[]
  /** The word as it is kept; as written where left out. */
  kept?: (written: string) => string
  /** A phrase that says what is expected, where a list of words would be endless. */
  expected?: string
}

/** What figures of a reading lie within unless a digit slipped or the unit is another; common practice, no source. */
export interface UsualRange {
  /** Any reading of the step where left out. */
  reading?: string
  unit: string
  least: number
  most: number
  /** Ends of what can be at all, where that is wider than what is usual: beyond them a figure is not used. */
  world?: readonly [least: number, most: number]
}

/**
 * All that belongs to one step of test-log.csv, in one file: what a row of it needs, what its figures may be, how its
 * rows are read, which evidence of templates/causes.yaml it can give, and the dangers of doing it.
 */
export interface StepKind {
  /** Text of its name. */
  title: WordKey
  /** What a row has to have beyond time and step. */
  needs: { place?: true; reading?: true; value?: true }
  /** Undefined: any word is kept and none is read. */
  readings?: ReadingKind
  /** Figures below zero are refused where true. */
  neverNegative?: true
  usual?: readonly UsualRange[]
  /**
   * Whether the outcome's words are understood, and the words that surely are; undefined where outcomes are free.
   * `needed`: a row with neither outcome, figure nor trace bears on nothing.
   */
  outcome?: { reads: (words: string) => boolean; words: readonly string[]; needed: boolean }
  /** Kinds of evidence its facts can weigh as. */
  evidence: readonly EvidenceKind[]
  /** Dangers of the work; a proposed test that is logged as this step carries at least these. */
  cautions: readonly Danger[]
  /** Texts for what it found, where the usual words do not fit. */
  findings?: { response: WordKey; 'no response': WordKey }
  read: (group: TestGroup, context: StepContext) => TestFinding
}

/** Readings that are one of a few words. */
export const oneOf = (
  words: readonly string[],
  units: (reading: string) => readonly string[],
): ReadingKind => ({ words, accepts: (reading) => words.includes(reading), units })

export const PRESSURE_UNITS = ['kPa', 'psi', 'bar', 'inHg'] as const

const CYLINDER = /^cylinder (\d{1,2})$/
const MOST_CYLINDERS = 16

/** Readings that name a cylinder, and other words beside. */
export const cylinderReadings = (units: readonly string[], others: readonly string[] = []): ReadingKind => ({
  words: [...Array.from({ length: MOST_CYLINDERS }, (_, i) => `cylinder ${i + 1}`), ...others],
  accepts: (reading) => CYLINDER.test(reading) || others.includes(reading),
  units: () => units,
})

/** Cylinder a reading names; undefined for another word. */
export function cylinderOf(reading: string | undefined): number | undefined {
  const found = CYLINDER.exec(reading ?? '')?.[1]
  return found === undefined ? undefined : Number(found)
}
