import { falling } from '../families/falling.ts'
import { defineVerdict } from './define-verdict.ts'

/** The spark line falls and compression is low. */
export const lowCompression = defineVerdict({
  name: 'low compression',
  order: 'out of order',
  family: falling,
  repairs: 'mixture',
  shows: { kind: 'compression', direction: 'low compression' },
  burn: 'falling',
  measuresOthers: true,
  shaped: true,
  words: 'chart.verdict.low-compression',
  means: 'chart.customer.means.low-compression',
  points: { words: 'chart.customer.points.falling', at: 'end' },
  sign: '\u25bc',
  signWords: 'report.sign.falls',
  look: { shape: 'triangle-down', fill: 'accent', stroke: 'accent' },
})
