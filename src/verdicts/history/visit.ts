/** Figures that are followed over the visits of one vehicle. Late rise is followed in points, the others in % of themselves. */
export const FOLLOWED = ['late_rise_pct', 'firing_kv', 'burn_ms'] as const
export type Followed = (typeof FOLLOWED)[number]

/** A cylinder's figure with its interval, as its record has it. */
export interface VisitFigure {
  value: number
  low: number
  high: number
}

/** A cylinder as one visit recorded it at a warm idle. */
export interface VisitCylinder {
  stage: 'before' | 'after'
  cylinder: number
  /** Whether its verdict is level and nothing of it stands apart: only then are its figures a reference. */
  healthy: boolean
  figures: Readonly<Partial<Record<Followed, VisitFigure>>>
}

/** An earlier report of a vehicle, as far as a later one is held against it. */
export interface Visit {
  workOrder: string
  /** Day the job was opened, ISO 8601. */
  opened: string
  odometer: { value: number; unit: string } | null
  /** What the recordings were made with, in the shop's words; null where it is not stated. */
  instrument: string | null
  cylinders: readonly VisitCylinder[]
}

/** What stands for a cylinder after a visit: as it left, where it was recorded after the work, else as it came in. */
export function leftAs(visit: Visit, cylinder: number): VisitCylinder | undefined {
  const of = visit.cylinders.filter((c) => c.cylinder === cylinder)
  const left = of.filter((c) => c.stage === 'after')
  const standing = left.length > 0 ? left : of
  return standing.find((c) => c.healthy) ?? standing[0]
}
