import { defineRule } from '../define-rule.ts'

/**
 * Lean off idle by the limit: where all climb, none of them shows how far speed and load bend a level line, so the
 * climb has to lie beyond the limit by as much as they may bend it. Not under a snap, whose load bends it without bound.
 */
export const leanOffIdle = defineRule({
  id: 'lean-off-idle',
  verdict: 'lean',
  basis: 'limit',
  at: ['cold', 'off idle'],
  needs: ['lateRisePct'],
  whenAbsent: 'not judged',
  limits: ['lateRisePct', 'offIdleBendPct'],
  sources: ['shop-practice', 'project-judgement'],
  says: 'verdict.lean-off-idle',
  decide: ({ lateRisePct }, limits) =>
    lateRisePct.low > limits.lateRisePct + limits.offIdleBendPct
      ? { lateRisePct, limitPct: limits.lateRisePct, bendPct: limits.offIdleBendPct }
      : undefined,
})
