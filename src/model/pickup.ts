/** A secondary pickup: where it sits and what it does to the voltage there. */
export interface Pickup {
  /** `all`: one lead that every event passes; a number: that plug's own lead; two numbers: across a pair's whole coil. */
  sees: 'all' | number | readonly [number, number]
  /** Direction of the firing line as recorded. */
  polarity: 1 | -1
  /** Ratio error: recorded over true. */
  gain: number
  /** Time constant of the capacitive divider's droop, s; Infinity for none. */
  droopS: number
  /** Share of the other cylinders' events that leaks in. */
  crosstalk: number
}

export const IDEAL_PICKUP: Omit<Pickup, 'sees'> = { polarity: 1, gain: 1, droopS: Infinity, crosstalk: 0 }

/**
 * Droop of a capacitive divider: a first-order high-pass over the samples, started at rest on the first one.
 *
 * @param kv  shape (n); not changed
 */
export function droop(kv: Float64Array, tauS: number, sampleS: number): Float64Array {
  if (tauS === Infinity) return kv
  const keep = Math.exp(-sampleS / tauS)
  const out = new Float64Array(kv.length)
  let level = 0
  let before = kv[0] ?? 0
  for (let i = 0; i < kv.length; i++) {
    const now = kv[i]!
    level = keep * (level + now - before)
    before = now
    out[i] = level
  }
  return out
}
