import type { Interval } from '../units/measured.ts'
import type { Catalogue, TextKey } from './catalogue.ts'

export type { TextKey } from './catalogue.ts'

/** A number, or a quantity with its interval. */
export type Figure = number | Interval

/** Words typed by the technician, the customer or the shop: they stand as they are in every language. */
export interface OwnWords {
  readonly words: string
}

/** Several things said after each other: "a, b and c", or parted by commas or semicolons alone. */
export interface ArgList {
  readonly list: readonly Arg[]
  readonly joined: 'and' | 'comma' | 'semicolon'
}

/**
 * What can stand in a sentence: a figure, words of others, another sentence, a list of these, or a string that is the
 * same in every language (a file, a code, a mark, numbers). Never a phrase of ours: that is a sentence of the catalogue.
 */
export type Arg = Figure | string | OwnWords | Sentence | ArgList

declare const noArgs: unique symbol
/** The arguments of a sentence without placeholders. */
export interface NoArgs {
  readonly [noArgs]?: never
}

type Both<U> = (U extends unknown ? (u: U) => void : never) extends (u: infer B) => void ? B : never
/** The arguments a sentence needs; of one of several sentences, those that any of them may need. */
export type ArgsOf<K extends TextKey> = Readonly<Both<Catalogue[K]>>
/** The same as the last parameter of a function: left out where nothing is needed. */
export type Given<K extends TextKey> = NoArgs extends ArgsOf<K> ? [args?: ArgsOf<K>] : [args: ArgsOf<K>]

/** Keys of sentences that need no arguments beyond those named: what a table of words holds. */
export type KeyNeeding<A> = { [K in TextKey]: A extends Catalogue[K] ? K : never }[TextKey]
/** Keys of words: sentences that need nothing. */
export type WordKey = KeyNeeding<NoArgs>

declare const checked: unique symbol
/** A sentence as data: key and arguments that go together, see `sentence`. Its words are put in when it is printed. */
export interface Sentence {
  readonly key: TextKey
  readonly args: Args
  readonly [checked]: true
}

/** Arguments by name. */
export type Args = Readonly<Record<string, Arg>>

/** A sentence to be said later. Key and arguments are held against the catalogue by the compiler. */
export const sentence = <K extends TextKey>(key: K, ...[args]: Given<K>): Sentence =>
  ({ key, args: args ?? {} }) as unknown as Sentence

/** All sentences of one language: key -> template with {placeholders}. Read once from templates/texts/<language>.yaml. */
export interface Texts {
  language: string
  templates: Readonly<Record<string, string>>
}
