import { falling as fallingFamily } from '../families/falling.ts'
import { defineVerdict } from './define-verdict.ts'

/** The spark line falls: rich mixture or low compression, not yet told apart. */
export const falling = defineVerdict({
  name: 'falling',
  order: 'out of order',
  family: fallingFamily,
  repairs: 'mixture',
  shows: { kind: 'mixture', direction: 'falling' },
  burn: 'falling',
  measuresOthers: true,
  shaped: true,
  words: 'chart.verdict.falling',
  means: 'chart.customer.means.falling',
  points: { words: 'chart.customer.points.falling', at: 'end' },
  sign: '\u25bc',
  signWords: 'report.sign.falls',
  look: { shape: 'triangle-down', fill: 'accent', stroke: 'accent' },
})
