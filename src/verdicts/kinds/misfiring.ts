import { defineVerdict } from './define-verdict.ts'

/** Turns without a spark line; those with one can still be read against cylinders in order. */
export const misfiring = defineVerdict({
  name: 'misfiring',
  family: 'misfiring',
  repairs: 'firing',
  burn: 'in order',
  measuresOthers: false,
  shaped: false,
  words: 'chart.verdict.misfiring',
  means: 'chart.customer.means.misfiring',
  sign: '\u00d7',
  look: { shape: 'cross', fill: 'ink', stroke: 'ink' },
})
