import { defineRule } from '../define-rule.ts'

/**
 * Borderline: the gap breaks down and the arc goes out before it is a spark line, in more turns than chance would leave. A
 * lean or falling line is said before this, which explains it; the circuit is whole, since it delivered the breakdown.
 */
export const goesOut = defineRule({
  id: 'goes-out',
  verdict: 'borderline',
  basis: 'limit',
  needs: ['wentOutSharePct'],
  whenAbsent: 'pass over',
  limits: ['misfireSharePct', 'stubBurnMs'],
  sources: ['shop-practice', 'project-judgement'],
  says: 'verdict.goes-out',
  decide: ({ wentOutSharePct }, { misfireSharePct, stubBurnMs }) =>
    wentOutSharePct.low > misfireSharePct
      ? { wentOutSharePct, limitPct: misfireSharePct, stubMs: stubBurnMs }
      : undefined,
})
