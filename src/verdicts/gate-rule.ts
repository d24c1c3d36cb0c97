import { remarkWords } from '../texts/remark-words.ts'
import { sentence } from '../texts/messages.ts'
import { defineRule, type Rule } from './define-rule.ts'

/**
 * Not judged, since a remark on the capture's quality forbids it; the remark says what to record instead.
 *
 * @param forbidden  what the remark has to forbid: any verdict, or one on the mixture
 */
export const gateRule = (id: string, forbidden: 'all' | 'mixture'): Rule =>
  defineRule({
    id,
    verdict: 'not judged',
    needs: [],
    whenAbsent: 'pass over',
    limits: [],
    sources: ['project-judgement'],
    says: 'verdict.gated',
    decide: (_figures, _limits, { remarks }) => {
      const gate = remarks.find((r) => r.forbids.includes(forbidden))
      const why = gate && remarkWords(gate.code)?.gate
      return why && { why: sentence(why) }
    },
  })
