import { falling } from '../families/falling.ts'
import { defineVerdict } from './define-verdict.ts'

/** The spark line falls and compression is in order: too much fuel for the air. */
export const rich = defineVerdict({
  name: 'rich',
  order: 'out of order',
  family: falling,
  repairs: 'mixture',
  shows: { kind: 'mixture', direction: 'rich' },
  burn: 'falling',
  measuresOthers: true,
  shaped: true,
  words: 'chart.verdict.rich',
  means: 'chart.customer.means.rich',
  points: { words: 'chart.customer.points.falling', at: 'end' },
  sign: '\u25bc',
  signWords: 'report.sign.falls',
  look: { shape: 'triangle-down', fill: 'accent', stroke: 'accent' },
})
