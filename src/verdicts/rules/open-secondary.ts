import { defineRule } from '../define-rule.ts'

/**
 * Open secondary: most events end without a spark line, and the voltage stands clearly higher than on the other
 * cylinders: the coil finds no gap it can break down, so all its voltage shows and then rings away.
 */
export const openSecondary = defineRule({
  id: 'open-secondary',
  verdict: 'open secondary',
  needs: ['noLineSharePct', 'firingExcessKv'],
  whenAbsent: 'pass over',
  limits: ['openNoLineSharePct', 'openFiringExcessKv'],
  sources: ['shop-practice'],
  says: 'verdict.open-secondary',
  decide: ({ noLineSharePct, firingExcessKv }, { openNoLineSharePct, openFiringExcessKv }) =>
    noLineSharePct.low > openNoLineSharePct && firingExcessKv.low > openFiringExcessKv
      ? { noLineSharePct, firingExcessKv, limitKv: openFiringExcessKv } : undefined,
})
