import type { LimitKey, SourceKey } from '../limits/keys.ts'
import type { Args, ArgsOf, TextKey } from '../texts/messages.ts'
import type { VerdictName } from './verdict-names.ts'
import type { Interval } from '../units/measured.ts'
import type { Circumstances, EvidenceName } from './evidence.ts'
import type { Running } from './running.ts'

/** What a verdict rests on: a limit of its own figures, or the comparison with its fellows. */
export const BASES = ['limit', 'fellows'] as const
export type Basis = (typeof BASES)[number]

/** Arguments of the sentence a rule says when it is met. */
type RuleArgs = Args

/**
 * One rule of judgement: what it is, what it needs, what it says, how it decides.
 * `decide` sees only the figures it declared and returns the arguments of its sentence, or undefined when it is not met.
 */
export interface Rule {
  id: string
  verdict: VerdictName
  /** What decides: a limit, or the other cylinders of the capture; left out where nothing is stated of the cylinder. */
  basis?: Basis
  /** How the engine has to run for the rule to be asked; always where left out. */
  at?: readonly Running[]
  needs: readonly EvidenceName[]
  /** What an absent figure means: the rule is passed over, or the cylinder is not judged. */
  whenAbsent: 'pass over' | 'not judged'
  /** Keys of templates/limits.yaml. */
  limits: readonly LimitKey[]
  /** Keys of templates/sources.yaml. */
  sources: readonly SourceKey[]
  /** The sentence it says when it is met. */
  says: TextKey
  decide: (
    figures: Readonly<Record<EvidenceName, Interval>>,
    limits: Readonly<Record<string, number>>,
    about: Circumstances,
  ) => RuleArgs | undefined
}

/** Narrows `decide` to the figures and limits the rule declares; there is no base class. */
export function defineRule<N extends EvidenceName, L extends LimitKey, K extends TextKey>(
  rule: Omit<Rule, 'needs' | 'limits' | 'says' | 'decide'> & {
    says: K
    needs: readonly N[]
    limits: readonly L[]
    decide: (
      figures: Readonly<Record<N, Interval>>,
      limits: Readonly<Record<L, number>>,
      about: Circumstances,
    ) => ArgsOf<K> | undefined
  },
): Rule {
  return rule as unknown as Rule
}
