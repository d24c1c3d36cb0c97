import type { Arg, ArgList, Args, Figure, NoArgs, OwnWords, Sentence } from './args.ts'
import type { Catalogue, TextKey } from './catalogue.ts'

export type { Arg, ArgList, Args, Figure, Sentence, TextKey }

type Both<U> = (U extends unknown ? (u: U) => void : never) extends (u: infer B) => void ? B : never
/** The arguments a sentence needs; of one of several sentences, those that any of them may need. */
export type ArgsOf<K extends TextKey> = Readonly<Both<Catalogue[K]>>
/** The same as the last parameter of a function: left out where nothing is needed. */
export type Given<K extends TextKey> = NoArgs extends ArgsOf<K> ? [args?: ArgsOf<K>] : [args: ArgsOf<K>]

/** Keys of sentences that need no arguments beyond those named: what a table of words holds. */
export type KeyNeeding<A> = {
  [K in TextKey]: NoArgs extends Catalogue[K] ? K : A extends Catalogue[K] ? K : never
}[TextKey]
/** Keys of words: sentences that need nothing. */
export type WordKey = KeyNeeding<NoArgs>

/** A sentence to be said later. Key and arguments are held against the catalogue by the compiler. */
export const sentence = <K extends TextKey>(key: K, ...[args]: Given<K>): Sentence =>
  ({ key, args: args ?? {} }) as unknown as Sentence

/** The same for a table of sentences that need different arguments: these are held against it when it is said. */
export const sentenceOf = (key: TextKey, args: Args): Sentence => ({ key, args }) as unknown as Sentence

/** Words typed by somebody else, for a sentence. */
export const ownWords = (words: string): OwnWords => ({ words })

/** Things said after each other, for a sentence. */
export const listOf = (list: readonly Arg[], joined: ArgList['joined']): ArgList => ({ list, joined })

/** All sentences of one language: key -> template with {placeholders}. Read once from templates/texts/<language>.yaml. */
export interface Texts {
  language: string
  templates: Readonly<Record<string, string>>
  /** Sentences of the shop's own that stand in place of those shipped; left out where there are none. */
  own?: readonly OwnSentence[]
  /** Shown where signs of print may not be. */
  plain?: true
}

/** A sentence of the shop's own, and the one in whose place it stands. */
interface OwnSentence {
  key: string
  sentence: string
  shipped: string
}
