import { defineRule } from '../define-rule.ts'

/** Not judged: the circuit could be read, but the capture's quality forbids a verdict on the mixture. */
export const mixtureGated = defineRule({
  id: 'mixture-gated',
  verdict: 'not judged',
  needs: [],
  whenAbsent: 'pass over',
  limits: [],
  sources: ['project-judgement'],
  says: 'verdict.gated',
  decide: (_figures, _limits, { remarks }) => {
    const gate = remarks.find((r) => r.forbids.includes('mixture'))
    return gate && { why: `gate.${gate.code}` }
  },
})
