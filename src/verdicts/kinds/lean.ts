import { lean as leanFamily } from '../families/lean.ts'
import { defineVerdict } from './define-verdict.ts'

/** The spark line climbs: rising resistance in the cylinder, too much air for the fuel. */
export const lean = defineVerdict({
  name: 'lean',
  order: 'out of order',
  family: leanFamily,
  repairs: 'mixture',
  shows: { kind: 'mixture', direction: 'lean' },
  burn: 'lean',
  measuresOthers: true,
  shaped: true,
  words: 'chart.verdict.lean',
  means: 'chart.customer.means.lean',
  points: { words: 'chart.customer.points.lean', at: 'end' },
  sign: '\u25b2',
  signWords: 'report.sign.climbs',
  look: { shape: 'triangle-up', fill: 'accent', stroke: 'accent' },
})
