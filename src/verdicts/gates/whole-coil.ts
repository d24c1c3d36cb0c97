import { defineGate } from './define-gate.ts'

/** A pickup over both gaps of a coil: the late rise given and judged is reckoned for the firing gap alone. */
export const wholeCoil = defineGate({
  id: 'whole-coil',
  limits: ['wholeCoilFallPct', 'wholeCoilFiringSharePct'],
  sources: ['project-judgement'],
  look: ({ pickups = new Map() }, limits) => {
    const cylinders = [...pickups].filter(([, kind]) => kind === 'whole coil').map(([cylinder]) => cylinder)
    return cylinders.length === 0
      ? []
      : [
          {
            forbids: [],
            cylinders: cylinders.toSorted((a, b) => a - b),
            args: { fallPct: limits.wholeCoilFallPct, sharePct: limits.wholeCoilFiringSharePct },
          },
        ]
  },
})
