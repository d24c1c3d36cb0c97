import type { Interval } from '../units/measured.ts'

/** A number, or a quantity with its interval. */
export type Figure = number | Interval

/** Words typed by the technician, the customer or the shop: they stand as they are in every language. */
export interface OwnWords {
  readonly words: string
}

/** Several things said after each other: "a, b and c", or parted by commas or semicolons alone. */
export interface ArgList {
  readonly list: readonly Arg[]
  readonly joined: 'and' | 'comma' | 'semicolon' | 'slash'
}

/**
 * What can stand in a sentence: a figure, words of others, another sentence, a list of these, or a string that is the
 * same in every language (a file, a code, a mark, numbers). Never a phrase of ours: that is a sentence of the catalogue.
 */
export type Arg = Figure | string | OwnWords | Sentence | ArgList

declare const checked: unique symbol
/** A sentence as data: key and arguments that go together, see `sentence`. Its words are put in when it is printed. */
export interface Sentence {
  readonly key: string
  readonly args: Args
  readonly [checked]: true
}

/** Arguments by name. */
export type Args = Readonly<Record<string, Arg>>

declare const noArgs: unique symbol
/** The arguments of a sentence without placeholders. */
export interface NoArgs {
  readonly [noArgs]?: never
}
