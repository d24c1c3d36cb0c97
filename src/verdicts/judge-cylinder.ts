import { sentence, sentenceOf } from '../texts/messages.ts'
import { ABSENT_WORDS } from '../texts/absent-words.ts'
import type { Says } from '../test-log/findings.ts'
import type { Interval } from '../units/measured.ts'
import type { LimitKey, SourceKey } from '../limits/keys.ts'
import { limit, type Limits } from '../limits/limits.ts'
import type { Basis, Rule } from './define-rule.ts'
import type { Circumstances, Evidence, EvidenceName } from './evidence.ts'
import { RULES } from './rules/index.ts'
import type { VerdictName } from './verdict-names.ts'

/** A verdict that can name its rule, its limits and its sources. */
export interface Judgement {
  verdict: VerdictName
  rule: string
  /** What decided; absent where nothing is stated of the cylinder. */
  basis?: Basis
  limits: readonly LimitKey[]
  sources: readonly SourceKey[]
  reason: Says
}

/** Asks the rules in their order; the first one met decides. The last rule always decides, or a figure is missing. */
export function judgeCylinder(evidence: Evidence, about: Circumstances, limits: Limits): Judgement {
  for (const rule of RULES) {
    const judged = ask(rule, { evidence, about, limits })
    if (judged) return judged
  }
  throw new Error('no rule decided: the last rule must')
}

function ask(
  rule: Rule,
  given: { evidence: Evidence; about: Circumstances; limits: Limits },
): Judgement | undefined {
  if (rule.at && !rule.at.includes(given.about.running)) return undefined
  const figures: Partial<Record<EvidenceName, Interval>> = {}
  for (const name of rule.needs) {
    const figure = given.evidence[name]
    if (!figure.ok) {
      if (rule.whenAbsent === 'pass over') return undefined
      return judgement(
        { ...rule, verdict: 'not judged' },
        sentence('verdict.figure-absent', { why: sentence(ABSENT_WORDS[figure.why]) }),
      )
    }
    figures[name] = figure.interval
  }
  const values = Object.fromEntries(rule.limits.map((key) => [key, limit(given.limits, key)]))
  const args = rule.decide(figures as Record<EvidenceName, Interval>, values, given.about)
  return args && judgement(rule, sentenceOf(rule.says, args))
}

const judgement = (rule: Rule, reason: Says): Judgement => ({
  verdict: rule.verdict,
  rule: rule.id,
  ...(rule.basis && rule.verdict !== 'not judged' && { basis: rule.basis }),
  limits: rule.limits,
  sources: rule.sources,
  reason,
})
