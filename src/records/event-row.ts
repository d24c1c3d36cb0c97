import type { EventClass, FigureName } from '../metrics/figures.ts'

/** One row of events.csv; figures absent where the event has none. */
export interface EventRow {
  stage: 'before' | 'after'
  capture: string
  cylinder: number | undefined
  event: number
  /** On the file's own clock, s. */
  breakdownS: number
  /** 1-based; undefined where the record is one. */
  frame?: number | undefined
  figures: Readonly<Partial<Record<FigureName, number>>>
  /** Highest sample of a firing line whose top the recorder cut off or missed, kV: the voltage was at least that. */
  firingAtLeastKv: number | undefined
  class: EventClass
  flags: readonly string[]
}
