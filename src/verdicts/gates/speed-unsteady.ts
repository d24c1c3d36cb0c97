import { defineGate } from './define-gate.ts'

/** A speed that runs away within the capture: no one condition was recorded. A hunting idle stays below the limit. */
export const speedUnsteady = defineGate({
  id: 'speed-unsteady',
  limits: ['unsteadySpeedPct'],
  sources: ['project-judgement'],
  look: ({ speed: { mean, spread } }, { unsteadySpeedPct }) => {
    if (!mean.ok || !spread.ok) return []
    const spreadPct = (100 * spread.value) / mean.value
    return spreadPct > unsteadySpeedPct
      ? [
          {
            forbids: ['mixture', 'speed'],
            args: { spreadPct, meanRpm: Math.round(mean.value), limitPct: unsteadySpeedPct },
          },
        ]
      : []
  },
})
