/** Thinned lines for the charts: plain arrays in kV, ms, s and rpm, ready to draw. Nothing is computed from them. */
export interface DrawnTraces {
  /** One a cylinder and capture: some of its events' spark lines, laid over each other from breakdown on. */
  sparkLines: readonly DrawnCylinder[]
  /** Engine speed over time: slow traces, and the events of a capture. */
  speeds: readonly DrawnSpeed[]
}

export interface DrawnLine {
  x: readonly number[]
  y: readonly number[]
}

export interface DrawnCylinder {
  capture: string
  stage: 'before' | 'after'
  cylinder: number
  /** x: ms from breakdown; y: kV above the pre-event level. At most a stated number, evenly chosen over the capture. */
  events: readonly DrawnLine[]
  /** Pointwise median of all events of the cylinder. */
  median: DrawnLine
  /** The 10, 50 and 90 % marks on the median event: ms and kV. */
  marks: readonly { share: 10 | 50 | 90; ms: number; kv: number }[]
  /** Heights are % of the middle of the capture's spark lines, since the pickup's ratio is not known. */
  relative?: true
  shown: number
  of: number
}

export interface DrawnSpeed {
  /** File of the trace or capture. */
  file: string
  from: 'trace' | 'events'
  stage: 'before' | 'after'
  /** x: s on the file's own clock; y: rpm, thinned to min and max a column. */
  line: DrawnLine
  /** Evidence mark of a trace that tests name, and of the test of each spray. */
  mark?: string
  sprays: readonly { fromS: number; toS: number; place: string; finding: string; mark?: string }[]
}
