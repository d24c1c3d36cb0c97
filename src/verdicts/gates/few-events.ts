import { defineGate } from './define-gate.ts'

/** Recording time asked for: half as much again as the events need. */
const RESERVE = 1.5
/** Slowest idle reckoned with where the speed is not known, rpm. */
const SLOW_IDLE_RPM = 500

/** Too few turns of a cylinder for any verdict. */
export const fewEvents = defineGate({
  id: 'few-events',
  limits: ['minEvents'],
  sources: ['project-judgement'],
  look: ({ cylinders, speed, engine, facts }, { minEvents }) => {
    const turnsOf = (c: (typeof cylinders)[number]): number => c.events + (c.missing ?? 0)
    const few = cylinders.filter((c) => turnsOf(c) < minEvents)
    if (few.length === 0) return []
    const cycleS = (30 * engine.strokes) / (speed.mean.ok ? speed.mean.value : SLOW_IDLE_RPM)
    return [
      {
        forbids: ['all'],
        cylinders: few.map((c) => c.cylinder),
        args: {
          cylinders: few.map((c) => c.cylinder).join(', '),
          fewest: Math.min(...few.map(turnsOf)),
          minEvents,
          durationS: facts.durationS,
          recordS: Math.ceil(RESERVE * minEvents * cycleS),
        },
      },
    ]
  },
})
