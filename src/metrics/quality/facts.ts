/** What one secondary channel shows about its own quality, in numbers. Undefined where nothing shows it. */
export interface ChannelQuality {
  column: string
  /** Cylinders it sees by name; undefined: all of them. */
  cylinders: readonly number[] | undefined
  /** The job states how the recorder's volts become kV at the engine. */
  ratioStated: boolean
  /** Median middle level of its spark lines, kV. */
  midKv: number | undefined
  /** Median number of samples of a spark line. */
  lineSamples: number | undefined
  /** The recorder's step, kV; 0 unknown. */
  quantumKv: number
  level: LevelDrift
}

/** How the level before an event moves over the capture, kV: from least to most, and typically from one event to the next. */
export interface LevelDrift {
  rangeKv: number
  stepKv: number
}

/** Places where the clock jumps, what they amount to, and how many events lie across one. */
export interface ClockJumps {
  gaps: number
  missingS: number
  repeats: number
  events: number
}

/** Events not of the capture's condition by their own speed, of how many. */
export interface EventsLeftOut {
  starting: number
  offSpeed: number
  of: number
}

/** Facts on the quality of a capture that no cylinder's figure shows. */
export interface QualityFacts {
  durationS: number
  sampleRateHz: number
  channels: readonly ChannelQuality[]
  jumps: ClockJumps
  leftOut: EventsLeftOut
  /** Frames of a triggered recorder: how many, their median length, and the events cut by their ends. Undefined where the record is one. */
  frames?: { count: number; lengthS: number; cut: number }
}
