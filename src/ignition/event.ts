import type { Args } from '../texts/messages.ts'
import type { RemarkCode } from '../texts/remark-words.ts'
/** First (inclusive) and last (exclusive) sample of a stretch. */
export interface SampleRange {
  from: number
  to: number
}

/** Words that end up in events.csv `flags`. */
export type EventFlag =
  | 'clipped'
  | 'under_sampled'
  | 'restrike'
  | 'partial'
  | 'bridged'
  | 'line_clipped'
  | 'ringing'
  | 'crosstalk'
  | 'clock_jump'
  | 'starting'
  | 'off_speed'

/** The samples of one event, upright (firing line upward), in kV above the pre-event level. */
export interface EventWave {
  /** shape (n): from before dwell start (where seen) to after the coil has rung out. Not to be changed. */
  kv: Float64Array
  sampleS: number
  /** Breakdown instant, fractional index into kv. */
  breakdown: number
  /** Sample of the firing line's peak. */
  peak: number
  /** Spark end, fractional index into kv; undefined where no spark line follows the breakdown. */
  sparkEnd: number | undefined
  /** Dwell start, fractional index into kv, where the pattern or a primary channel shows it. */
  dwellStart: number | undefined
  /** Level taken off, kV as recorded (after uprighting). */
  baselineKv: number
  /** Standard deviation of the recorder's noise around this event, kV. */
  noiseKv: number
  /** Recorder's step, kV; 0 unknown. */
  quantumKv: number
  /** The recorder's upper limit in this wave's kV (upright, above level), if known. */
  limitKv: number | undefined
  /** True where the pickup's ratio is not known: heights compare with each other and with no limit in kV. */
  ratioUnknown?: true
  /** How far the inverse time constant of the pickup's droop may lie below and above what was undone, 1/s at 95 %; absent where nothing shows it. */
  droop?: { down: number; up: number }
}

/** What happened at one breakdown. */
export interface IgnitionEvent {
  /** File of the capture as job.yaml names it. */
  capture: string
  /** Index into Capture.channels. */
  channel: number
  /** 1-based within the capture, in order of time over all channels. */
  number: number
  /** Undefined where no sync tells; such an event is not judged. */
  cylinder: number | undefined
  kind: 'firing' | 'wasted'
  /** Index of its frame; undefined where the record is one. Turns and speed are counted within frames only. */
  frame?: number | undefined
  /** Breakdown on the file's own clock, s, where that starts anew in every frame. */
  clockS?: number
  /** Breakdown and spark end on the capture's own clock, s. */
  breakdownS: number
  endS: number | undefined
  wave: EventWave
  flags: readonly EventFlag[]
}

/** A sync pulse, a bridge over a missing one, or one struck out, each with its reason: nothing is dropped silently. */
export interface SyncMark {
  atS: number
  state: 'seen' | 'bridged' | 'rejected'
  why?: string
}

/** A remark on the quality of a capture, made before judgement. Texts: texts/remark-words.ts. */
export interface QualityRemark {
  code: RemarkCode
  /** What it forbids: nothing, the firing voltage, mixture verdicts, speed, everything. */
  forbids: readonly ('firing' | 'mixture' | 'speed' | 'all')[]
  /** Arguments of its text: the evidence, in numbers and words. */
  args: Args
  /** Cylinders concerned; undefined means the whole capture. */
  cylinders?: readonly number[]
}

/** All that was found in one capture. */
export interface CaptureEvents {
  capture: string
  events: readonly IgnitionEvent[]
  sync: readonly SyncMark[]
  /** Polarity used for each channel: +1 firing line upward as recorded, -1 downward, 0 not a secondary. */
  polarity: readonly (1 | -1 | 0)[]
  remarks: readonly QualityRemark[]
}
