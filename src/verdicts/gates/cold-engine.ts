import { defineGate } from './define-gate.ts'

/** A cold engine is fed rich on purpose and burns unevenly: its cylinders are held against each other first. */
export const coldEngine = defineGate({
  id: 'cold-engine',
  limits: [],
  sources: ['shop-practice'],
  look: ({ entry }) => (entry.engine === 'cold' ? [{ forbids: [], args: {} }] : []),
})
