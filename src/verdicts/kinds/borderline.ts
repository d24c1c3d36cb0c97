import { defineVerdict } from './define-verdict.ts'

/** Too near a limit to be given to either side. */
export const borderline = defineVerdict({
  name: 'borderline',
  order: 'unsure',
  family: undefined,
  repairs: undefined,
  shows: undefined,
  burn: 'in order',
  measuresOthers: true,
  shaped: false,
  words: 'chart.verdict.borderline',
  means: 'chart.customer.means.borderline',
  points: { words: 'chart.customer.points.borderline', at: 'end' },
  sign: '\u25ca',
  signWords: 'report.sign.unsure',
  look: { shape: 'diamond', fill: 'paper', stroke: 'accent' },
})
