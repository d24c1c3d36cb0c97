import { defineRule } from '../define-rule.ts'

/**
 * High resistance outside the cylinder: the line starts clearly higher than the other cylinders' and falls more
 * steeply in its first half, as the drop over a resistance does while the current dies. Absolute levels depend on
 * the system, so only the comparison within the engine counts.
 */
export const externalResistance = defineRule({
  id: 'external-resistance',
  verdict: 'external resistance',
  basis: 'fellows',
  needs: ['startExcessPct', 'earlyDropExcessPct'],
  whenAbsent: 'pass over',
  limits: ['externalStartExcessPct', 'externalEarlyDropExcessPct'],
  sources: ['shop-practice'],
  says: 'verdict.external-resistance',
  decide: ({ startExcessPct, earlyDropExcessPct }, { externalStartExcessPct, externalEarlyDropExcessPct }) =>
    startExcessPct.low > externalStartExcessPct && earlyDropExcessPct.low > externalEarlyDropExcessPct
      ? { startExcessPct, earlyDropExcessPct, limitPct: externalStartExcessPct }
      : undefined,
})
