import { defineRule } from '../define-rule.ts'

/**
 * High resistance outside the cylinder by the line's own shape, where the other cylinders cannot show it: because most
 * of them share the fault, or there are none. The drop over a resistance dies with the current, so such a line falls
 * steeply in its first half and less in its second; rich mixture and low compression fall after the middle.
 * Not for a pickup over two gaps in series, whose healthy line falls so too.
 */
export const externalShape = defineRule({
  id: 'external-shape',
  verdict: 'external resistance',
  basis: 'limit',
  needs: ['earlyDropPct', 'fallsFirstPct'],
  whenAbsent: 'pass over',
  limits: ['externalOwnDropPct'],
  sources: ['shop-practice', 'project-judgement'],
  says: 'verdict.external-shape',
  decide: ({ earlyDropPct, fallsFirstPct }, { externalOwnDropPct }) =>
    earlyDropPct.low > externalOwnDropPct && fallsFirstPct.low > 0
      ? { earlyDropPct, limitPct: externalOwnDropPct }
      : undefined,
})
