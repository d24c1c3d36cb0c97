import type { BecauseCode } from './because.ts'
import type { Dialect } from '../capture/capture.ts'
import type { PreambleFacts } from '../capture/preamble.ts'
import type { QualityRemark } from '../ignition/event.ts'
import type { ChannelEntry, TimeUnit } from '../job/schema.ts'
import type { Problem } from '../problems/problem.ts'

/** What a column looks like. `time` and `counter` are told by their steps, `words` has no figures, `frame` goes on with a signal. */
export type Role = ChannelEntry['carries'] | 'time' | 'counter' | 'words' | 'frame' | 'unknown'

/** Why a column is taken for what it is; texts `peek.because.<code>`. */
export interface Because {
  code: BecauseCode
  args: Readonly<Record<string, number | string>>
}

/** What was found out about one column. Figures are in the column's own unit. */
export interface PeekedColumn {
  /** 1-based. */
  number: number
  name: string
  /** Columns that hold stretches of this signal, itself among them. */
  frames: number
  /** As written in the file, or null. */
  unit: string | null
  role: Role
  /** 0 to 1: share of this reading among those weighed; 1 for a column without a rival reading. */
  sureness: number
  because: readonly Because[]
  low: number | null
  high: number | null
  quantum: number | null
  /** Bits the recorder seems to have: of its range where that is known, else those its figures used. */
  bits: { value: number; of: 'range' | 'used' } | null
  clippedSamples: number
  events: PeekedEvents | null
  pulses: { count: number; perS: number } | null
}

/** Ignition events of a column taken for a secondary. */
export interface PeekedEvents {
  count: number
  perS: number
  polarity: 'positive' | 'negative'
  /** Typical height of a firing line in kV, by the unit written and `scale`. */
  firingKv: number
  /** Factor that brings firing lines to a usual height; 1 where the unit alone does. A guess. */
  scale: number
  /** Events from one sync pulse to the next, and the share of pulses that agree; null without a sync column. */
  perPulse: { count: number; share: number } | null
  remarks: readonly QualityRemark[]
}

/** All that a look at a file shows. */
export interface Peeked {
  file: string
  fileBytes: number
  gzip: boolean
  /** Text looked at, bytes unpacked; `whole`: that was all. */
  textBytes: number
  whole: boolean
  dialect: Dialect
  rows: number
  /** Rows of the whole file by its length; null where it was read whole. */
  rowsEstimated: number | null
  /** What the lines above the data say of the recording. */
  preamble: PreambleFacts
  /** Null where nothing tells the rate. `from` is what tells it. */
  clock: {
    from: 'column' | 'preamble' | 'said'
    sampleS: number
    durationS: number
    unit: TimeUnit | null
    unitWritten: boolean
    even: boolean
  } | null
  columns: readonly PeekedColumn[]
  overRange: readonly string[]
  /** Warnings, and what would refuse the file as a capture. */
  problems: readonly Problem[]
}
