import { concerning, defineGate } from './define-gate.ts'

/** Volts without a ratio: the line's shape and every comparison within the engine hold, its kV do not. */
export const ratioUnknown = defineGate({
  id: 'ratio-unknown',
  limits: [],
  sources: ['project-judgement'],
  look: ({ facts }) =>
    facts.channels
      .filter((c) => !c.ratioStated)
      .map((c) => ({ forbids: ['firing'], args: { channel: c.column }, ...concerning(c.cylinders) })),
})
