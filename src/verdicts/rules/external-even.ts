import { defineRule } from '../define-rule.ts'

/**
 * High resistance outside the cylinder where the line falls as much before its middle as after it, and the plug needs
 * more voltage than is usual: rich mixture and low compression let a line fall too, but make the gap easier to break
 * down, not harder. Not for a pickup over two gaps in series.
 */
export const externalEven = defineRule({
  id: 'external-even',
  verdict: 'external resistance',
  basis: 'limit',
  at: ['idle'],
  needs: ['earlyDropPct', 'fallsFirstPct', 'firingKv'],
  whenAbsent: 'pass over',
  limits: ['externalEvenDropPct', 'firingUsualHighKv'],
  sources: ['shop-practice', 'project-judgement'],
  says: 'verdict.external-even',
  decide: ({ earlyDropPct, fallsFirstPct, firingKv }, { externalEvenDropPct, firingUsualHighKv }) =>
    earlyDropPct.low > externalEvenDropPct && fallsFirstPct.high >= 0 && firingKv.low > firingUsualHighKv
      ? { earlyDropPct, firingKv, limitPct: externalEvenDropPct, limitKv: firingUsualHighKv }
      : undefined,
})
