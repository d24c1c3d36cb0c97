import type { CylinderSummaries } from '../../metrics/figures.ts'
import type { Limits } from '../../limits/limits.ts'
import type { PickupKind } from '../evidence.ts'
import type { Running } from '../running.ts'
import type { VerdictName } from '../verdict-names.ts'
import type { ApartFigure, ApartFinding } from './apart-finding.ts'

/** One cylinder as it is read beside its mixture. */
export interface ReadCylinder {
  cylinder: number
  capture: string
  verdict: VerdictName
  figures: CylinderSummaries
  /** Direction of its firing line, on a wasted-spark engine whose plugs fire either way; else undefined. */
  polarity: 'positive' | 'negative' | undefined
}

/** A cylinder, its fellows, and what is known of the recording. */
export interface ReadInput {
  own: ReadCylinder
  fellows: readonly ReadCylinder[]
  pickup: PickupKind
  running: Running
  /** False where a pickup of unknown ratio makes kV mean nothing by themselves. */
  kvKnown: boolean
  /** False where the quality of the capture forbids the firing voltage. */
  firingKnown: boolean
  limits: Limits
}

/** One figure read beside the mixture: how it stands apart, most telling first. */
export interface Reading {
  figure: ApartFigure
  look: (input: ReadInput) => ApartFinding[]
}
