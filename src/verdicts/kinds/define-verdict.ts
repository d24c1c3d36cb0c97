import type { WordKey } from '../../texts/messages.ts'
import type { Family } from '../families/define-family.ts'

/** What can be out of order, by the figure that tells whether a repair put it back. */
export type OddKind = 'mixture' | 'firing' | 'circuit'
/** Like whose burn a cylinder's firing voltage, burn time and oscillations may be read. */
type Burn = 'in order' | 'lean' | 'falling'
/** Ink of a mark: hollow is in order or open, filled is not in order. */
type Ink = 'paper' | 'ink' | 'accent'

/** What page one and the records say is found where a cylinder bears the verdict. */
export interface Shown {
  kind: 'mixture' | 'compression' | 'circuit' | 'misfire'
  direction: 'lean' | 'rich' | 'falling' | 'low compression' | 'open' | 'resistance' | 'missing'
}

interface Common<Name extends string> {
  /** The word of the records (fixed). */
  name: Name
  /** Undefined: the verdict itself explains what the other figures would show. */
  burn: Burn | undefined
  /** A measure for the other cylinders' firing voltage, burn time and oscillations. */
  measuresOthers: boolean
  /** Says that the second half of the spark line is not level. */
  shaped: boolean
  /** In one or two words, and what it means for the customer. */
  words: WordKey
  means: WordKey
  /** In about three words where an arrow of the customer's picture points: at the beginning of the spark line, at its end, or at where it should be. Undefined: nothing is pointed out. */
  points: { words: WordKey; at: 'start' | 'end' | 'no line' } | undefined
  /** The sign beside the word on paper with its meaning, which may be that of several verdicts; the mark of the charts has the same shape. */
  sign: string
  signWords: WordKey
  look: { shape: string; fill: Ink; stroke: Ink }
}

/** A verdict that says what is wrong. */
interface OddVerdict<Name extends string = string> extends Common<Name> {
  order: 'out of order'
  family: Family
  /** What a repair has to put back. */
  repairs: OddKind
  shows: Shown
}

/** A verdict that finds nothing wrong: in order, too near a limit to say, or not judged. */
interface CalmVerdict<Name extends string = string> extends Common<Name> {
  order: 'in order' | 'unsure' | 'not known'
  family: undefined
  repairs: undefined
  shows: undefined
}

/** One verdict on a cylinder and all that belongs to it. Adding one is a file like this, its rule and its texts. */
export type Verdict<Name extends string = string> = OddVerdict<Name> | CalmVerdict<Name>

export const defineVerdict = <const Name extends string, V extends Verdict<Name>>(
  verdict: V & { name: Name },
): V => verdict
