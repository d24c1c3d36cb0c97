import { defineRule } from '../define-rule.ts'

/**
 * Borderline: more turns without a spark line than the limit, but too few turns to rule out chance. A line that is
 * lean or falling is said before this; only `level` would say more than is known.
 */
export const misfireUnsure = defineRule({
  id: 'misfire-unsure',
  verdict: 'borderline',
  basis: 'limit',
  needs: ['noLineSharePct'],
  whenAbsent: 'pass over',
  limits: ['misfireSharePct'],
  sources: ['project-judgement'],
  says: 'verdict.misfire-unsure',
  // Twice the limit: one stray turn among forty or so says nothing, one among a dozen might.
  decide: ({ noLineSharePct }, { misfireSharePct }) =>
    noLineSharePct.value > 2 * misfireSharePct ? { noLineSharePct, limitPct: misfireSharePct } : undefined,
})
