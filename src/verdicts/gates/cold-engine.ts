import { defineGate } from './define-gate.ts'

/** A cold engine is fed rich on purpose and burns unevenly; the limits on the mixture are those of a warm one. */
export const coldEngine = defineGate({
  id: 'cold-engine',
  limits: [],
  sources: ['shop-practice'],
  look: ({ entry }) => (entry.engine === 'cold' ? [{ forbids: ['mixture'], args: {} }] : []),
})
