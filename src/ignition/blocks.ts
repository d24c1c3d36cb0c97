/** A channel thinned to blocks of about `BLOCK_S`: what the coarse passes look at. Shapes (k). */
export interface Blocks {
  /** Samples a block; the last block may hold fewer. */
  size: number
  /** Length of a block, s. */
  blockS: number
  min: Float32Array
  max: Float32Array
  mean: Float32Array
}

/** Long enough to thin the data, short beside a spark line (0.8 ms) and a ring's quarter cycle (0.1 ms). */
export const BLOCK_S = 20e-6

/** Smallest, largest and mean value of every block; one pass. With sign -1, of the signal turned upside down. */
export function makeBlocks(data: Float32Array, { sampleS, sign }: { sampleS: number; sign: 1 | -1 }): Blocks {
  const size = Math.max(1, Math.round(BLOCK_S / sampleS))
  const count = Math.ceil(data.length / size)
  const min = new Float32Array(count)
  const max = new Float32Array(count)
  const mean = new Float32Array(count)
  for (let k = 0, from = 0; k < count; k++, from += size) {
    const to = Math.min(from + size, data.length)
    let low = data[from]!
    let high = low
    let sum = 0
    for (let i = from; i < to; i++) {
      const v = data[i]!
      if (v < low) low = v
      if (v > high) high = v
      sum += v
    }
    min[k] = low
    max[k] = high
    mean[k] = sum / (to - from)
  }
  const asRecorded = { size, blockS: size * sampleS, min, max, mean }
  return sign === 1 ? asRecorded : mirrored(asRecorded)
}

/** The same blocks of the signal turned upside down. */
export function mirrored({ size, blockS, min, max, mean }: Blocks): Blocks {
  return { size, blockS, min: negated(max), max: negated(min), mean: negated(mean) }
}

function negated(values: Float32Array): Float32Array {
  const out = new Float32Array(values.length)
  for (let k = 0; k < out.length; k++) out[k] = -values[k]!
  return out
}

/** Middle one of the values `from` (inclusive) to `to` (exclusive), the upper of an even count; undefined for none. */
export function middleOf(values: Float32Array, from: number, to: number): number | undefined {
  const rising = values.slice(Math.max(0, from), Math.max(0, to)).sort()
  return rising[rising.length >> 1]
}
