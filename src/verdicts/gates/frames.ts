import { defineGate } from './define-gate.ts'

/** A triggered recorder's frames: their whole events stand, turns and speed are counted within each. */
export const frames = defineGate({
  id: 'frames',
  limits: [],
  sources: ['project-judgement'],
  look: ({ facts: { frames: found } }) =>
    found
      ? [{ forbids: [], args: { frames: found.count, lengthMs: 1000 * found.lengthS, cut: found.cut } }]
      : [],
})
