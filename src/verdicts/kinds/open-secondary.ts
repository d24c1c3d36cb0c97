import { circuit } from '../families/circuit.ts'
import { defineVerdict } from './define-verdict.ts'

/** The coil finds no gap it can break down. */
export const openSecondary = defineVerdict({
  name: 'open secondary',
  order: 'out of order',
  family: circuit,
  repairs: 'firing',
  shows: { kind: 'circuit', direction: 'open' },
  burn: undefined,
  measuresOthers: false,
  shaped: false,
  words: 'chart.verdict.open-secondary',
  means: 'chart.customer.means.open-secondary',
  points: { words: 'chart.customer.points.open-secondary', at: 'no line' },
  sign: '\u25a0',
  signWords: 'report.sign.circuit',
  look: { shape: 'square', fill: 'ink', stroke: 'ink' },
})
