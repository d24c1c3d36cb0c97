import type { QualityRemark } from '../ignition/event.ts'
import type { Running } from './running.ts'
import type { AbsenceCode, Interval } from '../units/measured.ts'

/** A figure a rule may ask for: its interval, or why there is none. */
export type Available = { ok: true; interval: Interval } | { ok: false; why: AbsenceCode }

/**
 * Everything a rule may look at for one cylinder in one capture. No samples, no events: figures with intervals only.
 * `...Excess` figures compare the cylinder with the median of the other cylinders of the same capture.
 */
export interface Evidence {
  /**
   * Late rise as a share of the middle level, %. Under a pickup over two gaps in series: that of the firing gap alone,
   * the wasted gap's part taken out.
   */
  lateRisePct: Available
  /**
   * Late rise less that of the level ones among the other cylinders of the capture, points; held at 95 % over the
   * engine. Absent where no fellow is level.
   */
  againstLevelPct: Available
  /** Firing voltage, kV. */
  firingKv: Available
  burnMs: Available
  /** Start level above the other cylinders' median, % of theirs. */
  startExcessPct: Available
  /** Fall from start to middle beyond the other cylinders' median, percentage points of the start level. */
  earlyDropExcessPct: Available
  /** Fall from start to middle, % of the start level; absent for two gaps in series. */
  earlyDropPct: Available
  /** Fall from start to middle less the fall from middle to late, % of the start level; absent for two gaps in series. */
  fallsFirstPct: Available
  /** Burn time beyond the other cylinders' median, % of theirs; negative is shorter. */
  burnExcessPct: Available
  /** Share of turns without a spark line, %: nothing burnt, or no event came at all. */
  noLineSharePct: Available
  /** Share of turns in which the gap broke down and the arc went out before it was a spark line, %. */
  wentOutSharePct: Available
  /** Top of the events without a spark line, kV; where the recorder cut it, at least that. */
  noLineTopKv: Available
  /** The same beyond the other cylinders' median firing voltage, kV, and % of theirs. */
  noLineTopExcessKv: Available
  noLineTopExcessPct: Available
  /** How long those events stand near their top, ms: a half-wave of the coil where nothing broke down. */
  noLineTopLastsMs: Available
  /** Turns seen: complete firing events, with and without a spark line, and turns without any event. */
  eventCount: Available
  /** Complete firing events with a spark line. */
  lineCount: Available
}
export type EvidenceName = keyof Evidence

/**
 * Where a cylinder's pickup sits. Only like is compared with like: a lead every event passes, the cylinder's own lead,
 * or a whole coil over two gaps in series, which show other levels.
 */
export type PickupKind = 'common lead' | 'own lead' | 'whole coil'

/** What is known about the cylinder besides its own capture. */
export interface Circumstances {
  cylinder: number
  running: Running
  /** The tops of its events without a spark line stand at the recorder's limit. */
  noLineTopsClipped: boolean
  /** A compression reading of this cylinder, against the limit; undefined where none was taken. */
  compression: 'low' | 'in order' | undefined
  /** Remarks on the capture that concern this cylinder. */
  remarks: readonly QualityRemark[]
}
