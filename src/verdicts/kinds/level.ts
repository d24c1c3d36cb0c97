import { defineVerdict } from './define-verdict.ts'

/** Level: the spark line keeps its height, the mixture is in order. */
export const level = defineVerdict({
  name: 'level',
  order: 'in order',
  family: undefined,
  repairs: undefined,
  shows: undefined,
  burn: 'in order',
  measuresOthers: true,
  shaped: false,
  words: 'chart.verdict.level',
  means: 'chart.customer.means.level',
  points: { words: 'chart.customer.points.level', at: 'end' },
  sign: '\u25cb',
  signWords: 'report.sign.in-order',
  look: { shape: 'circle', fill: 'paper', stroke: 'ink' },
})
