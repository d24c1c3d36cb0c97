import { sentence } from '../../texts/messages.ts'
import { runningOf } from '../running.ts'
import { defineGate } from './define-gate.ts'

/** Off idle, load and speed bend the line by themselves: there the cylinders are judged against each other. */
export const notAtIdle = defineGate({
  id: 'not-at-idle',
  limits: ['idleMostRpm'],
  sources: ['shop-practice', 'project-judgement'],
  look: ({ entry, speed }, { idleMostRpm }) => {
    const running = runningOf(entry, speed, idleMostRpm)
    if (running !== 'off idle' && running !== 'snap') return []
    const meanRpm = speed.mean.ok ? Math.round(speed.mean.value) : sentence('gate.unknown-speed')
    return [{ forbids: [], args: { condition: entry.condition, meanRpm, idleMostRpm } }]
  },
})
