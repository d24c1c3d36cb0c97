import { defineRule } from '../define-rule.ts'

/**
 * Borderline: the line falls after its middle beyond the limit, but before it no less. Resistance outside the cylinder
 * falls first, rich mixture and low compression fall late; one that does both cannot be given to either side.
 */
export const fallsThroughout = defineRule({
  id: 'falls-throughout',
  verdict: 'borderline',
  basis: 'limit',
  needs: ['lateRisePct', 'fallsFirstPct'],
  whenAbsent: 'pass over',
  limits: ['lateRisePct'],
  sources: ['shop-practice', 'project-judgement'],
  says: 'verdict.falls-throughout',
  decide: ({ lateRisePct, fallsFirstPct }, limits) =>
    lateRisePct.high < -limits.lateRisePct && fallsFirstPct.high >= 0
      ? { lateRisePct, fallsFirstPct }
      : undefined,
})
