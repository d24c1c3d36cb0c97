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
  const off = steps.reduce((sum, each) => sum + Math.abs(each / step - Math.round(each / step)), 0) / steps.length
  return off > OFF_GRID ? 0 : step
}

/** Different values in stretches spread over the channel, rising. */
function distinctLevels(data: Float32Array): number[] {
  const sample = sampled(data).filter(Number.isFinite).sort()
  const smallest = SAME_LEVEL * ((sample.at(-1) ?? 0) - (sample[0] ?? 0))
  const levels: number[] = []
  let last = -Infinity
  for (let i = 0; i < sample.length; i++) {
    if (sample[i]! - last > smallest) levels.push(last = sample[i]!)
  }
  return levels
}

function sampled(data: Float32Array): Float32Array {
  if (data.length <= STRETCHES * STRETCH_SAMPLES) return data.slice()
  const sample = new Float32Array(STRETCHES * STRETCH_SAMPLES)
  for (let i = 0; i < STRETCHES; i++) {
    const start = Math.floor(((data.length - STRETCH_SAMPLES) * i) / (STRETCHES - 1))
    sample.set(data.subarray(start, start + STRETCH_SAMPLES), i * STRETCH_SAMPLES)
  }
  return sample
}
