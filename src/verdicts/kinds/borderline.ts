import { defineVerdict } from './define-verdict.ts'

/** Too near a limit to be given to either side. */
export const borderline = defineVerdict({
  name: 'borderline',
  family: undefined,
  repairs: undefined,
  burn: 'in order',
  measuresOthers: true,
  shaped: false,
  words: 'chart.verdict.borderline',
  means: 'chart.customer.means.borderline',
  sign: '\u25ca',
  look: { shape: 'diamond', fill: 'paper', stroke: 'accent' },
})
