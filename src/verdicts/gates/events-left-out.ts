import { defineGate } from './define-gate.ts'

/** Events of a start, a blip or a stall in the capture: left out by their own speed, and said; the others stand. */
export const eventsLeftOut = defineGate({
  id: 'events-left-out',
  limits: ['crankingMostRpm', 'ownSpeedPct'],
  sources: ['shop-practice', 'project-judgement'],
  look: ({ facts: { leftOut } }) =>
    leftOut.starting + leftOut.offSpeed === 0 ? [] : [{ forbids: [], args: { ...leftOut } }],
})
