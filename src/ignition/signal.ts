/** One secondary channel as recorded, with the sign that turns its firing lines upward. */
export interface Signal {
  /** shape (n), kV as recorded; not changed */
  data: Float32Array
  sign: 1 | -1
  sampleS: number
}

/** Samples `from` (inclusive) to `to` (exclusive), upright, cut to the record; a copy. */
export function upright({ data, sign }: Signal, from: number, to: number): Float64Array {
  const first = Math.max(0, from)
  const last = Math.min(data.length, to)
  const out = new Float64Array(Math.max(0, last - first))
  for (let i = 0; i < out.length; i++) out[i] = sign * data[first + i]!
  return out
}

/** Whole samples in a stretch of time, at least one. */
export const samplesIn = (seconds: number, sampleS: number): number =>
  Math.max(1, Math.round(seconds / sampleS))
