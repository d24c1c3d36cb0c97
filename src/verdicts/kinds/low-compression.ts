import { defineVerdict } from './define-verdict.ts'

/** The spark line falls and compression is low. */
export const lowCompression = defineVerdict({
  name: 'low compression',
  family: 'falling',
  repairs: 'mixture',
  burn: 'falling',
  measuresOthers: true,
  shaped: true,
  words: 'chart.verdict.low-compression',
  means: 'chart.customer.means.low-compression',
  sign: '\u25bc',
  look: { shape: 'triangle-down', fill: 'accent', stroke: 'accent' },
})
