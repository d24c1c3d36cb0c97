import { defineRule } from '../define-rule.ts'
import { BESIDE_FELLOWS } from '../running.ts'

/** Level off idle without a fellow to compare with: wholly inside the limits, which speed and load only narrow. */
export const levelOffIdle = defineRule({
  id: 'level-off-idle',
  verdict: 'level',
  basis: 'limit',
  at: BESIDE_FELLOWS,
  needs: ['lateRisePct'],
  whenAbsent: 'not judged',
  limits: ['lateRisePct'],
  sources: ['shop-practice', 'project-judgement'],
  says: 'verdict.level-off-idle',
  decide: ({ lateRisePct }, limits) =>
    lateRisePct.low >= -limits.lateRisePct && lateRisePct.high <= limits.lateRisePct
      ? { lateRisePct, limitPct: limits.lateRisePct }
      : undefined,
})
