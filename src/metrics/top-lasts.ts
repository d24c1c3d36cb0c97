import type { EventWave } from '../ignition/event.ts'

/** Near its top: within a tenth of it. */
const NEAR_TOP = 0.9

/**
 * How long the voltage stands near the top of its firing line without a break, ms: some microseconds where the gap
 * breaks down, some tens and more where nothing does and the coil swings through its whole half-wave.
 */
export function topLastsMs({ kv, peak, sampleS }: EventWave): number {
  const least = NEAR_TOP * kv[peak]!
  let from = peak
  let to = peak
  while (from > 0 && kv[from - 1]! >= least) from--
  while (to < kv.length - 1 && kv[to + 1]! >= least) to++
  return (to - from) * sampleS * 1000
}
