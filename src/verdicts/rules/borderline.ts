import { defineRule } from '../define-rule.ts'

/** Borderline: the interval of the late rise crosses a limit, so neither side can be stated at 95 %. */
export const borderline = defineRule({
  id: 'borderline',
  verdict: 'borderline',
  basis: 'limit',
  at: ['idle'],
  needs: ['lateRisePct'],
  whenAbsent: 'not judged',
  limits: ['lateRisePct'],
  sources: ['shop-practice', 'iso-17025-7.8.6'],
  says: 'verdict.borderline',
  decide: ({ lateRisePct }, limits) => ({ lateRisePct, limitPct: limits.lateRisePct }),
})
