import { runningOf } from '../running.ts'
import { defineGate } from './define-gate.ts'

/**
 * Burns shorter than is usual on every cylinder alike: some systems burn so in order, and a coil short of supply or dwell
 * does too. The line cannot tell the two apart, so it is said and not called a fault.
 */
export const burnShort = defineGate({
  id: 'burn-short',
  limits: ['burnUsualLowMs', 'burnUsualHighMs', 'burnShortMs', 'idleMostRpm'],
  sources: ['shop-practice', 'project-judgement'],
  look: ({ entry, speed, cylinders }, { burnUsualLowMs, burnUsualHighMs, burnShortMs, idleMostRpm }) => {
    if (runningOf(entry, speed, idleMostRpm) !== 'idle') return []
    const burns = cylinders.flatMap(({ figures: { burnMs } }) => (burnMs.ok ? [burnMs] : []))
    const short = burns.length > 0 && burns.every(({ high }) => high < burnUsualLowMs)
    if (!short || burns.every(({ high }) => high < burnShortMs)) return []
    const values = burns.map(({ value }) => value)
    return [
      {
        forbids: [],
        args: {
          leastMs: Math.min(...values),
          mostMs: Math.max(...values),
          lowMs: burnUsualLowMs,
          highMs: burnUsualHighMs,
        },
      },
    ]
  },
})
