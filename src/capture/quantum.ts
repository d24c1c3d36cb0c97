/** Stretches of a channel looked at, and samples in each: enough to meet nearly every level of a recorder. */
const STRETCHES = 16
const STRETCH_SAMPLES = 4096
/** Fewer levels than this show no step: a square wave has two. */
const MIN_LEVELS = 4
/** Levels closer than this share of the range are one level, told apart only by single precision. */
const SAME_LEVEL = 4 * 2 ** -23
/** Place among the sorted steps from which the smallest step is taken: above a stray rounding, below the gaps. */
const LOW_SHARE = 0.1
/** Steps within this ratio of that one are the same step, its last printed digit rounded either way. */
const SAME_STEP = 1.5
/** Mean distance of the steps from whole multiples of the smallest, in its own unit: 0 on a grid, 0.25 by chance. */
const OFF_GRID = 0.2

/**
 * Smallest step between the values of a channel: the recorder's quantum, or the last digit printed where that is coarser.
 *
 * @param data  shape (rows), not changed; infinities are passed over
 * @returns     step in the unit of `data`; 0 where the values lie on no grid or show too few levels
 */
export function smallestStep(data: Float32Array): number {
  const levels = distinctLevels(data)
  if (levels.length < MIN_LEVELS) return 0
  const steps = levels.slice(1).map((level, i) => level - levels[i]!)
  const sorted = [...steps].sort((a, b) => a - b)
  const low = sorted[Math.floor(LOW_SHARE * sorted.length)]!
  const same = sorted.filter((step) => step <= SAME_STEP * low && step >= low / SAME_STEP)
  const step = same.reduce((sum, each) => sum + each, 0) / same.length
  const off =
    steps.reduce((sum, each) => sum + Math.abs(each / step - Math.round(each / step)), 0) / steps.length
  return off > OFF_GRID ? 0 : step
}

/** Different values in stretches spread over the channel, rising. */
function distinctLevels(data: Float32Array): number[] {
  const values = differentValues(stretches(data)).sort()
  const smallest = SAME_LEVEL * ((values.at(-1) ?? 0) - (values[0] ?? 0))
  const levels: number[] = []
  let last = -Infinity
  for (const value of values) {
    if (value - last > smallest) levels.push((last = value))
  }
  return levels
}

/** Most values looked at; twice as many places for them, a power of two, so that few fall on a taken one. */
const PLACES = 2 * STRETCHES * STRETCH_SAMPLES
const PLACES_BITS = Math.log2(PLACES)

/**
 * Each finite value once, in no order. A recorder has far fewer levels than samples: sorting the levels alone takes a
 * tenth of the time of sorting the samples.
 */
function differentValues(parts: readonly Float32Array[]): Float32Array {
  const places = new Float32Array(PLACES).fill(NaN)
  const found = new Float32Array(STRETCHES * STRETCH_SAMPLES)
  const single = new Float32Array(1)
  const bits = new Int32Array(single.buffer)
  let count = 0
  for (const part of parts) {
    for (let i = 0; i < part.length; i++) {
      const value = part[i]!
      if (value - value !== 0) continue // not finite
      single[0] = value
      let at = Math.imul(bits[0]!, 0x9e3779b1) >>> (32 - PLACES_BITS)
      while (places[at]! === places[at]! && places[at]! !== value) at = (at + 1) & (PLACES - 1)
      if (places[at]! === value) continue
      places[at] = value
      found[count++] = value
    }
  }
  return found.subarray(0, count)
}

/** Stretches of the channel, the whole of a short one. */
function stretches(data: Float32Array): Float32Array[] {
  if (data.length <= STRETCHES * STRETCH_SAMPLES) return [data]
  return Array.from({ length: STRETCHES }, (_, i) => {
    const start = Math.floor(((data.length - STRETCH_SAMPLES) * i) / (STRETCHES - 1))
    return data.subarray(start, start + STRETCH_SAMPLES)
  })
}
