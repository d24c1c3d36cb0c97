import { asStated } from '../../ignition/ratio-stated.ts'
import { concerning, defineGate } from './define-gate.ts'

/**
 * A level that drifts. Each event is counted from its own level, so that a slow drift does no harm and is only shown;
 * one that moves from event to event by a good part of the line moves within an event as well.
 */
export const levelDrift = defineGate({
  id: 'level-drift',
  limits: ['levelRangePct', 'levelStepPct'],
  sources: ['project-judgement'],
  look: ({ facts }, { levelRangePct, levelStepPct }) =>
    facts.channels.flatMap((c) => {
      if (c.midKv === undefined) return []
      const rangePct = (100 * c.level.rangeKv) / c.midKv
      const stepPct = (100 * c.level.stepKv) / c.midKv
      const grave = stepPct > levelStepPct
      if (!grave && rangePct <= levelRangePct) return []
      const args = {
        channel: c.column,
        range: asStated(c.level.rangeKv, c.ratioStated),
        rangePct,
        stepPct,
        limitPct: levelStepPct,
      }
      return [{ forbids: grave ? (['firing', 'mixture'] as const) : [], args, ...concerning(c.cylinders) }]
    }),
})
