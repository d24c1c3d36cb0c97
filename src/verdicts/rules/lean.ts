import { defineRule } from '../define-rule.ts'

/** Lean, at idle: the 95 % interval of the cylinder's late rise lies wholly above the limit. */
export const lean = defineRule({
  id: 'lean',
  verdict: 'lean',
  basis: 'limit',
  at: ['idle'],
  needs: ['lateRisePct'],
  whenAbsent: 'not judged',
  limits: ['lateRisePct'],
  sources: ['shop-practice', 'iso-17025-7.8.6'],
  says: 'verdict.lean',
  decide: ({ lateRisePct }, limits) =>
    lateRisePct.low > limits.lateRisePct ? { lateRisePct, limitPct: limits.lateRisePct } : undefined,
})
