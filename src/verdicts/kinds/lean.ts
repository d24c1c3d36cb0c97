import { defineVerdict } from './define-verdict.ts'

/** The spark line climbs: rising resistance in the cylinder, too much air for the fuel. */
export const lean = defineVerdict({
  name: 'lean',
  family: 'lean',
  repairs: 'mixture',
  burn: 'lean',
  measuresOthers: true,
  shaped: true,
  words: 'chart.verdict.lean',
  means: 'chart.customer.means.lean',
  sign: '\u25b2',
  look: { shape: 'triangle-up', fill: 'accent', stroke: 'accent' },
})
