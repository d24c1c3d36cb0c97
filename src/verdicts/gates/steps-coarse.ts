import { asStated } from '../../ignition/ratio-stated.ts'
import { concerning, defineGate } from './define-gate.ts'

/**
 * A recorder's step coarser than the effect looked for. Below that the step is in the uncertainty of every level and
 * widens its interval; beyond it, readings of the middle and the late level can be one and the same.
 */
export const stepsCoarse = defineGate({
  id: 'steps-coarse',
  limits: ['lateRisePct'],
  sources: ['project-judgement'],
  look: ({ facts }, { lateRisePct }) =>
    facts.channels.flatMap((c) => {
      const stepPct = c.midKv === undefined ? 0 : (100 * c.quantumKv) / c.midKv
      if (stepPct <= lateRisePct) return []
      const args = {
        channel: c.column,
        step: asStated(c.quantumKv, c.ratioStated),
        stepPct,
        limitPct: lateRisePct,
      }
      return [{ forbids: ['mixture'] as const, args, ...concerning(c.cylinders) }]
    }),
})
