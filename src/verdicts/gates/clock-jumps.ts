import { defineGate } from './define-gate.ts'

/** Samples dropped, or stamps that repeat or jump: events across such a place are left out, the others stand. */
export const clockJumps = defineGate({
  id: 'clock-jumps',
  limits: [],
  sources: ['project-judgement'],
  look: ({ facts: { jumps } }) =>
    jumps.gaps + jumps.repeats === 0
      ? []
      : [
          {
            forbids: [],
            args: {
              gaps: jumps.gaps,
              missingMs: 1000 * jumps.missingS,
              repeats: jumps.repeats,
              events: jumps.events,
            },
          },
        ],
})
