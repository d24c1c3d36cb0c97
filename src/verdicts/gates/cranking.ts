import { runningOf } from '../running.ts'
import { defineGate } from './define-gate.ts'

/** While cranking, cylinders fill and burn unevenly and are fed rich on purpose: their lines tell of no mixture fault. */
export const cranking = defineGate({
  id: 'cranking',
  limits: ['idleMostRpm'],
  sources: ['shop-practice'],
  look: ({ entry, speed }, { idleMostRpm }) =>
    runningOf(entry, speed, idleMostRpm) === 'cranking' ? [{ forbids: ['mixture'], args: {} }] : [],
})
