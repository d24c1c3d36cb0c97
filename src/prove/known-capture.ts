import type { Capture } from '../capture/capture.ts'
import type { Engine } from '../job/schema.ts'

/** One breakdown as it truly was. Times on the capture's own clock. */
export interface KnownEvent {
  /** Index into Capture.channels. */
  channel: number
  cylinder: number
  kind: 'firing' | 'wasted'
  breakdownS: number
  /** False: cut by the edge of the file, not scored beyond being there. */
  complete: boolean
  /** Noise-free, as a recorder of that gain shows them: gain is in the stated uncertainty; undefined where nothing burns. */
  burnMs: number | undefined
  midKv: number | undefined
  lateRiseKv: number | undefined
}

/** A capture whose truth is known. */
export interface KnownCapture {
  name: string
  origin: 'circuit simulation' | 'physical model'
  capture: Capture
  engine: Engine
  events: readonly KnownEvent[]
  /** True median late rise of each cylinder, %, where it is known apart from the events. */
  risesPct?: ReadonlyMap<number, number>
  /** Recorder and pickup with the flaws of real ones: what lies within the uncertainty an event states is no error. */
  realRecorder?: boolean
  /** Verdicts that are right, by cylinder. */
  accept: ReadonlyMap<number, readonly string[]>
}
