import type { QualityRemark } from '../ignition/event.ts'
import type { AbsenceCode, Interval } from '../units/measured.ts'

/** A figure a rule may ask for: its interval, or why there is none. */
export type Available = { ok: true; interval: Interval } | { ok: false; why: AbsenceCode }

/**
 * Everything a rule may look at for one cylinder in one capture. No samples, no events: figures with intervals only.
 * `...Excess` figures compare the cylinder with the median of the other cylinders of the same capture.
 */
export interface Evidence {
  /** Late rise as a share of the middle level, %. */
  lateRisePct: Available
  /** Firing voltage, kV. */
  firingKv: Available
  burnMs: Available
  /** Start level above the other cylinders' median, % of theirs. */
  startExcessPct: Available
  /** Fall from start to middle beyond the other cylinders' median, percentage points of the start level. */
  earlyDropExcessPct: Available
  /** Burn time beyond the other cylinders' median, % of theirs; negative is shorter. */
  burnExcessPct: Available
  /** Firing voltage beyond the other cylinders' median, kV. */
  firingExcessKv: Available
  /** Share of events without a spark line, %. */
  noLineSharePct: Available
  /** Complete firing events, with and without a spark line. */
  eventCount: Available
}
export type EvidenceName = keyof Evidence

/** What is known about the cylinder besides its own capture. */
export interface Circumstances {
  cylinder: number
  /** A compression reading of this cylinder, against the limit; undefined where none was taken. */
  compression: 'low' | 'in order' | undefined
  /** Remarks on the capture that concern this cylinder. */
  remarks: readonly QualityRemark[]
}
