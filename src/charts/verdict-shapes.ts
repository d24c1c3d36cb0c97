import { ofVerdicts } from '../verdicts/kinds/index.ts'
import { ACCENT, INK, PAPER } from './theme.ts'

/** A mark's shape and filling. The verdict's word always stands beside it. */
export interface MarkLook {
  shape: string
  fill: string
  stroke: string
}

const COLOURS = { paper: PAPER, ink: INK, accent: ACCENT } as const

/** One shape a group of verdicts: what is in order is hollow, what is not is filled and points the way the line goes. */
export const VERDICT_LOOKS = ofVerdicts(({ look }): MarkLook => ({
  shape: look.shape,
  fill: COLOURS[look.fill],
  stroke: COLOURS[look.stroke],
}))
