import type { EvidenceKind } from '../../limits/keys.ts'
import type { Arg, KeyNeeding, WordKey } from '../../texts/messages.ts'

/** Where the cylinders of one family lie: one alone, several in no group, those of a bank, all. */
type FamilyScope = 'cylinder' | 'some' | 'bank' | 'all'

/** Verdicts that speak of the same thing when several cylinders bear them, and what is said and weighed of it then. */
export interface Family<Name extends string = string> {
  /** The word of fleet.csv (fixed). */
  name: Name
  /** In the reader's words. */
  words: WordKey
  /** Said where all judged cylinders bear it, and where exactly those of one bank do. */
  all: WordKey
  bank: KeyNeeding<{ bank: Arg; cylinders: Arg }>
  /** The evidence of templates/causes.yaml it is weighed as. */
  weighs: Readonly<Record<FamilyScope, EvidenceKind>>
}

export const defineFamily = <const Name extends string>(family: Family<Name>): Family<Name> => family
