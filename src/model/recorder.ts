import type { Random } from '../maths/random.ts'

/** What the recorder does to one voltage. Voltages in the channel's own unit at the pickup (kV, or V for sync). */
export interface Digitiser {
  bits: number
  low: number
  high: number
  noiseRms: number
  offset: number
  /** Slow wandering of the zero: rms, with a memory of `driftS`. */
  driftRms: number
  driftS: number
  humPeak: number
  humHz: number
}

/** Rows lost in transfer, or rows whose time stamp did not move on. */
export interface ClockFault {
  kind: 'dropped' | 'repeated'
  atS: number
  rows: number
}

export interface Recorder {
  sampleHz: number
  secondary: Digitiser
  sync: Digitiser
  faults: readonly ClockFault[]
}

export const GOOD_SYNC: Digitiser = {
  bits: 12,
  low: -10,
  high: 10,
  noiseRms: 0.02,
  offset: 0,
  driftRms: 0,
  driftS: 1,
  humPeak: 0,
  humHz: 50,
}
/** A workshop recorder in good order: 12 bits over 20 kV either way. */
export const GOOD_RECORDER: Recorder = {
  sampleHz: 500_000,
  sync: GOOD_SYNC,
  faults: [],
  secondary: {
    bits: 12,
    low: -20,
    high: 20,
    noiseRms: 0.014,
    offset: 0,
    driftRms: 0,
    driftS: 1,
    humPeak: 0,
    humHz: 50,
  },
}
/** Slow and coarse: 8 bits over 10 kV either way, so that a step is 78 V and tall firing lines are cut. */
export const POOR_RECORDER: Recorder = {
  sampleHz: 100_000,
  faults: [],
  secondary: {
    bits: 8,
    low: -10,
    high: 10,
    noiseRms: 0.03,
    offset: 0.05,
    driftRms: 0.03,
    driftS: 0.4,
    humPeak: 0.04,
    humHz: 50,
  },
  sync: { ...GOOD_SYNC, bits: 8 },
}

/** Smallest step of a digitiser, in its unit. */
export const stepOf = (digitiser: Digitiser): number => (digitiser.high - digitiser.low) / 2 ** digitiser.bits

/** Highest value it can give: full scale is one step short of `high`. */
export const topOf = (digitiser: Digitiser): number => digitiser.high - stepOf(digitiser)

/**
 * Digitises: adds offset, drift, hum and noise, then rounds to steps and cuts at the range.
 *
 * @param clean  shape (n), unit of the digitiser; not changed
 */
export function digitise(
  clean: Float64Array,
  digitiser: Digitiser,
  sampleS: number,
  random: Random,
): Float64Array {
  const { low, noiseRms, offset, driftRms, driftS, humPeak, humHz } = digitiser
  const step = stepOf(digitiser)
  const top = topOf(digitiser)
  const keep = Math.exp(-sampleS / driftS)
  const fresh = driftRms * Math.sqrt(1 - keep * keep)
  const humRad = 2 * Math.PI * humHz * sampleS
  const humPhase = 2 * Math.PI * random.uniform()
  let drift = driftRms === 0 ? 0 : driftRms * random.gaussian()
  const out = new Float64Array(clean.length)
  for (let i = 0; i < clean.length; i++) {
    if (driftRms !== 0) drift = keep * drift + fresh * random.gaussian()
    const hum = humPeak === 0 ? 0 : humPeak * Math.sin(humRad * i + humPhase)
    const noise = noiseRms === 0 ? 0 : noiseRms * random.gaussian()
    const analogue = clean[i]! + offset + drift + hum + noise
    const stepped = low + Math.round((analogue - low) / step) * step
    out[i] = Math.min(Math.max(stepped, low), top)
  }
  return out
}

/**
 * Which samples reach the file, and under what time stamp.
 *
 * @returns kept: indices into the samples; timesS: stamps of the kept rows, or undefined where no fault bends the clock
 */
export function fileRows(
  samples: number,
  sampleS: number,
  faults: readonly ClockFault[],
): { kept: Uint32Array | undefined; timesS: Float64Array | undefined } {
  if (faults.length === 0) return { kept: undefined, timesS: undefined }
  const dropped = new Uint8Array(samples)
  const stamps = Float64Array.from({ length: samples }, (_, i) => i * sampleS)
  for (const fault of faults) {
    const from = Math.round(fault.atS / sampleS)
    const to = Math.min(from + fault.rows, samples)
    if (fault.kind === 'dropped') dropped.fill(1, from, to)
    else stamps.fill(stamps[from] ?? 0, from, to)
  }
  const kept = Uint32Array.from(stamps.keys()).filter((i) => dropped[i] === 0)
  return { kept, timesS: Float64Array.from(kept, (i) => stamps[i]!) }
}
