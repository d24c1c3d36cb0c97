import { defineVerdict } from './define-verdict.ts'

/** Nothing is stated of the cylinder; the reason says why. */
export const notJudged = defineVerdict({
  name: 'not judged',
  order: 'not known',
  family: undefined,
  repairs: undefined,
  shows: undefined,
  burn: 'in order',
  measuresOthers: true,
  shaped: false,
  words: 'chart.verdict.not-judged',
  means: 'chart.customer.means.not-judged',
  points: undefined,
  sign: '\u2013',
  signWords: 'report.sign.not-judged',
  look: { shape: 'stroke', fill: 'paper', stroke: 'ink' },
})
