import { defineRule } from '../define-rule.ts'
import { BESIDE_FELLOWS } from '../running.ts'

/** Level off idle: as level as the level ones among its fellows, and inside the limits itself. */
export const levelOfFellows = defineRule({
  id: 'level-of-fellows',
  verdict: 'level',
  basis: 'fellows',
  at: BESIDE_FELLOWS,
  needs: ['lateRisePct', 'againstLevelPct'],
  whenAbsent: 'pass over',
  limits: ['lateRisePct'],
  sources: ['shop-practice', 'project-judgement'],
  says: 'verdict.level-of-fellows',
  decide: ({ lateRisePct, againstLevelPct }, limits) =>
    Math.abs(lateRisePct.value) <= limits.lateRisePct &&
    againstLevelPct.low >= -limits.lateRisePct &&
    againstLevelPct.high <= limits.lateRisePct
      ? { lateRisePct, againstLevelPct, limitPct: limits.lateRisePct }
      : undefined,
})
