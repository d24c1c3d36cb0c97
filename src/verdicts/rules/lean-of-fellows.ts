import { defineRule } from '../define-rule.ts'
import { BESIDE_FELLOWS } from '../running.ts'

/** Lean off idle: the line climbs by more than the limit beyond the level ones among its fellows, held over the engine. */
export const leanOfFellows = defineRule({
  id: 'lean-of-fellows',
  verdict: 'lean',
  basis: 'fellows',
  at: BESIDE_FELLOWS,
  needs: ['againstLevelPct'],
  whenAbsent: 'pass over',
  limits: ['lateRisePct'],
  sources: ['shop-practice', 'project-judgement'],
  says: 'verdict.lean-of-fellows',
  decide: ({ againstLevelPct }, limits) =>
    againstLevelPct.low > limits.lateRisePct ? { againstLevelPct, limitPct: limits.lateRisePct } : undefined,
})
