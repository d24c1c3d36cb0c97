import { misfiring as misfiringFamily } from '../families/misfiring.ts'
import { defineVerdict } from './define-verdict.ts'

/** Turns without a spark line; those with one can still be read against cylinders in order. */
export const misfiring = defineVerdict({
  name: 'misfiring',
  order: 'out of order',
  family: misfiringFamily,
  repairs: 'firing',
  shows: { kind: 'misfire', direction: 'missing' },
  burn: 'in order',
  measuresOthers: false,
  shaped: false,
  words: 'chart.verdict.misfiring',
  means: 'chart.customer.means.misfiring',
  points: { words: 'chart.customer.points.misfiring', at: 'end' },
  sign: '\u00d7',
  signWords: 'report.sign.misfiring',
  look: { shape: 'cross', fill: 'ink', stroke: 'ink' },
})
