import { defineRule } from '../define-rule.ts'

/** Not judged: a remark on the capture's quality forbids it. The remark says what to record instead. */
export const gated = defineRule({
  id: 'gated',
  verdict: 'not judged',
  needs: [],
  whenAbsent: 'pass over',
  limits: [],
  sources: ['project-judgement'],
  says: 'verdict.gated',
  decide: (_figures, _limits, { remarks }) => {
    const gate = remarks.find((r) => r.forbids.includes('all'))
    return gate && { why: `gate.${gate.code}` }
  },
})
