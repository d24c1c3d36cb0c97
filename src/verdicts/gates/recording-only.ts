import { defineGate } from './define-gate.ts'

/** Neighbouring events alike, and few of them: the figures hold for the recording, and more has to be recorded to say more. */
export const recordingOnly = defineGate({
  id: 'recording-only',
  limits: [],
  sources: ['project-judgement'],
  look: ({ cylinders, speed, engine }) => {
    const short = cylinders.filter((c) => c.cyclesNeeded !== undefined)
    if (short.length === 0 || !speed.mean.ok) return []
    const cycleS = (30 * engine.strokes) / speed.mean.value
    return [
      {
        forbids: [],
        cylinders: short.map((c) => c.cylinder),
        args: {
          cylinders: short.map((c) => c.cylinder).join(', '),
          fewest: Math.min(...short.map((c) => c.events)),
          recordS: Math.ceil(cycleS * Math.max(...short.map((c) => c.cyclesNeeded!))),
        },
      },
    ]
  },
})
