import { asStated } from '../../ignition/ratio-stated.ts'
import { concerning, defineGate } from './define-gate.ts'

/**
 * A level that drifts. Each event is counted from its own level, so that a drift does no harm to the mixture; what moves
 * within an event differs from event to event and is in the interval. It is shown, since a pickup that sits still does not.
 */
export const levelDrift = defineGate({
  id: 'level-drift',
  limits: ['levelRangePct'],
  sources: ['project-judgement'],
  look: ({ facts }, { levelRangePct }) =>
    facts.channels.flatMap((c) => {
      if (c.midKv === undefined) return []
      const rangePct = (100 * c.level.rangeKv) / c.midKv
      if (rangePct <= levelRangePct) return []
      const args = {
        channel: c.column,
        range: asStated(c.level.rangeKv, c.ratioStated),
        rangePct,
        stepPct: (100 * c.level.stepKv) / c.midKv,
      }
      return [{ forbids: [], args, ...concerning(c.cylinders) }]
    }),
})
