/** Where the gap broke down, within a stretch of upright samples. */
export interface Breakdown {
  /** Fractional sample. */
  at: number
  /** Sample of the firing line's top, or of the first one on the spark line where no firing line shows. */
  peak: number
  /** Samples from a tenth of the climb to its top, the top included. */
  riseSamples: number
}

/** A top below this much over the spark line, as a share of the line's own step, is not a firing line but noise on it. */
const LEAST_TOP_SHARE = 0.25

/**
 * The breakdown instant, or the crest where nothing broke down, to a fraction of a sample. The voltage collapses within a microsecond or two, so between the
 * last sample of the climb and the next one nothing tells where: the middle is taken, right to half a sample.
 *
 * @param kv        upright samples about the firing line
 * @param beforeKv  level before the climb; lineKv: early level of the spark line, undefined without one; recorded kV
 * @param limitKv   the recorder's upper limit, recorded kV, where known: of a flat top the last sample counts
 */
export function breakdownInstant(
  kv: Float64Array,
  {
    beforeKv,
    lineKv,
    noiseKv,
    limitKv,
  }: { beforeKv: number; lineKv: number | undefined; noiseKv: number; limitKv: number | undefined },
): Breakdown {
  let peak = 0
  for (let i = 1; i < kv.length; i++) if (kv[i]! > kv[peak]!) peak = i
  const step = lineKv === undefined ? 0 : Math.max(0, lineKv - beforeKv)
  if (lineKv !== undefined && kv[peak]! - lineKv < LEAST_TOP_SHARE * step + 4 * noiseKv) {
    const first = kv.findIndex((v) => v > beforeKv + 0.6 * step)
    const on = first < 0 ? peak : first
    return { at: Math.max(0, on - 0.5), peak: on, riseSamples: 1 }
  }
  const flat = limitKv !== undefined && kv[peak]! >= limitKv - 1e-6 ? limitKv - 1e-6 : kv[peak]!
  let last = peak
  while (last + 1 < kv.length && kv[last + 1]! >= flat) last++
  const tenth = beforeKv + 0.1 * (kv[peak]! - beforeKv)
  let foot = peak
  while (foot > 0 && kv[foot - 1]! > tenth) foot--
  return { at: lineKv === undefined ? (peak + last) / 2 : last + 0.5, peak, riseSamples: peak - foot + 1 }
}
