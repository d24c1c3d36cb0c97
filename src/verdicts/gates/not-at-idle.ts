import { defineGate } from './define-gate.ts'

/** The limits on the mixture are those of an idle: off it, load and speed bend the line by themselves. */
export const notAtIdle = defineGate({
  id: 'not-at-idle',
  limits: ['idleMostRpm'],
  sources: ['shop-practice', 'project-judgement'],
  look: ({ entry, speed }, { idleMostRpm }) => {
    const rpm = speed.mean.ok ? speed.mean.low : undefined
    if (entry.condition === 'idle' && !(rpm !== undefined && rpm > idleMostRpm)) return []
    const meanRpm = speed.mean.ok ? Math.round(speed.mean.value) : 'gate.unknown-speed'
    return [{ forbids: ['mixture'], args: { condition: entry.condition, meanRpm, idleMostRpm } }]
  },
})
