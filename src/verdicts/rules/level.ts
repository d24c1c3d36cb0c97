import { defineRule } from '../define-rule.ts'

/** Level: the 95 % interval of the late rise lies wholly inside the limits. */
export const level = defineRule({
  id: 'level',
  verdict: 'level',
  basis: 'limit',
  at: ['idle'],
  needs: ['lateRisePct'],
  whenAbsent: 'not judged',
  limits: ['lateRisePct'],
  sources: ['shop-practice', 'iso-17025-7.8.6'],
  says: 'verdict.level',
  decide: ({ lateRisePct }, limits) =>
    lateRisePct.low >= -limits.lateRisePct && lateRisePct.high <= limits.lateRisePct
      ? { lateRisePct, limitPct: limits.lateRisePct }
      : undefined,
})
