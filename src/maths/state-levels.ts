/** Low and high state of a two-state signal. */
export interface StateLevels {
  low: number
  high: number
}

/**
 * State levels by the histogram method: the range is split into equal bins, and each state is the centre of the
 * fullest bin of its half.
 *
 * @returns undefined for no samples or a constant signal
 * @source  IEEE Std 181-2011, 5.2 (histogram mode)
 */
export function stateLevels(samples: ArrayLike<number>, bins = 100): StateLevels | undefined {
  let least = Infinity,
    most = -Infinity
  for (let i = 0; i < samples.length; i++) {
    least = Math.min(least, samples[i]!)
    most = Math.max(most, samples[i]!)
  }
  if (!(most > least)) return undefined
  const width = (most - least) / bins
  const counts = new Float64Array(bins)
  for (let i = 0; i < samples.length; i++) {
    counts[Math.min(bins - 1, Math.floor((samples[i]! - least) / width))]! += 1
  }
  const half = Math.floor(bins / 2)
  const centre = (bin: number): number => least + (bin + 0.5) * width
  return { low: centre(fullest(counts, 0, half)), high: centre(fullest(counts, half, bins)) }
}

/** Bin with the most samples in [from, to), the first of equals. */
function fullest(counts: Float64Array, from: number, to: number): number {
  let best = from
  for (let bin = from; bin < to; bin++) if (counts[bin]! > counts[best]!) best = bin
  return best
}
