/** Samples with their places, both of shape (n). */
export interface Points {
  x: ArrayLike<number>
  y: ArrayLike<number>
}

/**
 * Points thinned to at most `most` by means of neighbouring blocks of equal size (the last may be smaller), so that a
 * method whose cost grows with the square stays fast. Fewer points than that are passed on unchanged.
 */
export function blockMeans({ x, y }: Points, most: number): { x: Float64Array; y: Float64Array } {
  const size = Math.ceil(x.length / most)
  const count = Math.ceil(x.length / size)
  const means = (values: ArrayLike<number>): Float64Array =>
    Float64Array.from({ length: count }, (_, k) => {
      const last = Math.min(values.length, (k + 1) * size)
      let total = 0
      for (let i = k * size; i < last; i++) total += values[i]!
      return total / (last - k * size)
    })
  return { x: means(x), y: means(y) }
}
