import type { WordKey } from '../../texts/messages.ts'

/** Verdicts that speak of the same thing when several cylinders bear them; none for one that finds nothing wrong. */
export type Family = 'lean' | 'falling' | 'circuit' | 'misfiring'
/** What can be out of order, by the figure that tells whether a repair put it back. */
export type OddKind = 'mixture' | 'firing' | 'circuit'
/** Like whose burn a cylinder's firing voltage, burn time and oscillations may be read. */
type Burn = 'in order' | 'lean' | 'falling'
/** Ink of a mark: hollow is in order or open, filled is not in order. */
type Ink = 'paper' | 'ink' | 'accent'

/** One verdict on a cylinder and all that belongs to it. Adding one is a file like this, its rule and its texts. */
export interface Verdict<Name extends string = string> {
  /** The word of the records (fixed). */
  name: Name
  /** Undefined: nothing is said to be wrong. */
  family: Family | undefined
  /** What a repair has to put back; undefined where nothing was out of order. */
  repairs: OddKind | undefined
  /** Undefined: the verdict itself explains what the other figures would show. */
  burn: Burn | undefined
  /** A measure for the other cylinders' firing voltage, burn time and oscillations. */
  measuresOthers: boolean
  /** Says that the second half of the spark line is not level. */
  shaped: boolean
  /** In one or two words, and what it means for the customer. */
  words: WordKey
  means: WordKey
  /** The sign beside the word on paper, and the mark of the charts: the same shape. */
  sign: string
  look: { shape: string; fill: Ink; stroke: Ink }
}

export const defineVerdict = <const Name extends string>(verdict: Verdict<Name>): Verdict<Name> => verdict
