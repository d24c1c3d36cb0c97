import { defineRule } from '../define-rule.ts'

/** Misfiring: more events without a spark line than chance or noise would leave, by the exact binomial interval. */
export const misfiring = defineRule({
  id: 'misfiring',
  verdict: 'misfiring',
  basis: 'limit',
  needs: ['noLineSharePct'],
  whenAbsent: 'pass over',
  limits: ['misfireSharePct'],
  sources: ['project-judgement'],
  says: 'verdict.misfiring',
  decide: ({ noLineSharePct }, { misfireSharePct }) =>
    noLineSharePct.low > misfireSharePct ? { noLineSharePct, limitPct: misfireSharePct } : undefined,
})
