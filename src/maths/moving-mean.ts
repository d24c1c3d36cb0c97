/** Mean of the `width` samples about each sample, fewer at the ends. */
export function movingMean(samples: Float64Array, width: number): Float64Array {
  const reach = Math.floor(width / 2)
  return samples.map((_, i) => {
    const from = Math.max(0, i - reach)
    const to = Math.min(samples.length, i + reach + 1)
    let total = 0
    for (let k = from; k < to; k++) total += samples[k]!
    return total / (to - from)
  })
}
