import type { CylinderRecord } from '../records/result.ts'
import { ACCENT, INK, PAPER } from './theme.ts'

/** A mark's shape and filling. The verdict's word always stands beside it. */
export interface MarkLook {
  shape: string
  fill: string
  stroke: string
}

const FALLING: MarkLook = { shape: 'triangle-down', fill: ACCENT, stroke: ACCENT }
const CIRCUIT: MarkLook = { shape: 'square', fill: INK, stroke: INK }

/** One shape a group of verdicts: what is in order is hollow, what is not is filled and points the way the line goes. */
export const VERDICT_LOOKS: Readonly<Record<CylinderRecord['verdict'], MarkLook>> = {
  level: { shape: 'circle', fill: PAPER, stroke: INK },
  lean: { shape: 'triangle-up', fill: ACCENT, stroke: ACCENT },
  falling: FALLING,
  rich: FALLING,
  'low compression': FALLING,
  borderline: { shape: 'diamond', fill: PAPER, stroke: ACCENT },
  'external resistance': CIRCUIT,
  'open secondary': CIRCUIT,
  misfiring: { shape: 'cross', fill: INK, stroke: INK },
  'not judged': { shape: 'stroke', fill: PAPER, stroke: INK },
}
