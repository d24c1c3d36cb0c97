import { defineVerdict } from './define-verdict.ts'

/** The spark line falls and compression is in order: too much fuel for the air. */
export const rich = defineVerdict({
  name: 'rich',
  family: 'falling',
  repairs: 'mixture',
  burn: 'falling',
  measuresOthers: true,
  shaped: true,
  words: 'chart.verdict.rich',
  means: 'chart.customer.means.rich',
  sign: '\u25bc',
  look: { shape: 'triangle-down', fill: 'accent', stroke: 'accent' },
})
