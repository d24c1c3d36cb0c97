import { concerning, defineGate } from './define-gate.ts'

/** Spark lines of so few samples that the hook at their end cannot be kept apart from the late level. */
export const lineSlow = defineGate({
  id: 'line-slow',
  limits: ['lineLeastSamples'],
  sources: ['project-judgement'],
  look: ({ facts }, { lineLeastSamples }) =>
    facts.channels.flatMap((c) => {
      if (c.lineSamples === undefined || c.lineSamples >= lineLeastSamples) return []
      const neededKhz = ((facts.sampleRateHz / 1000) * lineLeastSamples) / c.lineSamples
      const args = {
        channel: c.column,
        rateKhz: facts.sampleRateHz / 1000,
        samples: Math.round(c.lineSamples),
        least: lineLeastSamples,
        neededKhz: Math.ceil(neededKhz),
      }
      return [{ forbids: ['mixture'] as const, args, ...concerning(c.cylinders) }]
    }),
})
