import { circuit } from '../families/circuit.ts'
import { defineVerdict } from './define-verdict.ts'

/** Resistance outside the cylinder; it bends every figure of the line. */
export const externalResistance = defineVerdict({
  name: 'external resistance',
  order: 'out of order',
  family: circuit,
  repairs: 'circuit',
  shows: { kind: 'circuit', direction: 'resistance' },
  burn: undefined,
  measuresOthers: false,
  shaped: false,
  words: 'chart.verdict.external-resistance',
  means: 'chart.customer.means.external-resistance',
  points: { words: 'chart.customer.points.external-resistance', at: 'start' },
  sign: '\u25a0',
  signWords: 'report.sign.circuit',
  look: { shape: 'square', fill: 'ink', stroke: 'ink' },
})
