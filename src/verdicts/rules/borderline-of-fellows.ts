import { defineRule } from '../define-rule.ts'
import { BESIDE_FELLOWS } from '../running.ts'

/** Borderline off idle: neither apart from the level ones among its fellows nor surely like them. */
export const borderlineOfFellows = defineRule({
  id: 'borderline-of-fellows',
  verdict: 'borderline',
  basis: 'fellows',
  at: BESIDE_FELLOWS,
  needs: ['againstLevelPct'],
  whenAbsent: 'pass over',
  limits: ['lateRisePct'],
  sources: ['shop-practice', 'project-judgement'],
  says: 'verdict.borderline-of-fellows',
  decide: ({ againstLevelPct }, limits) => ({ againstLevelPct, limitPct: limits.lateRisePct }),
})
