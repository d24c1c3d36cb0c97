/**
 * Squared length of the Fourier sum of a series, padded with zeros, at k / size turns a step for k from 0 to size / 2.
 * A radix-2 transform: the time grows with `size` times its logarithm.
 *
 * @param size    a power of two, no less than the values there are
 * @source        Cooley and Tukey 1965, Mathematics of Computation 19(90), 297-301
 */
export function powerSpectrum(values: Float64Array, size: number): Float64Array {
  if (size < values.length || !Number.isInteger(Math.log2(size)))
    throw new RangeError(`a transform of ${values.length} values needs a power of two, got ${size}`)
  const re = new Float64Array(size)
  const im = new Float64Array(size)
  scatter(values, re)
  const [cos, sin] = turns(size)
  for (let half = 1; half < size; half *= 2) {
    const stride = size / (2 * half)
    for (let from = 0; from < size; from += 2 * half)
      for (let k = 0; k < half; k++) {
        const [a, b] = [from + k, from + k + half]
        const [c, s] = [cos[k * stride]!, sin[k * stride]!]
        const x = re[b]! * c + im[b]! * s
        const y = im[b]! * c - re[b]! * s
        re[b] = re[a]! - x
        im[b] = im[a]! - y
        re[a]! += x
        im[a]! += y
      }
  }
  return Float64Array.from({ length: (size >> 1) + 1 }, (_, k) => re[k]! ** 2 + im[k]! ** 2)
}

/** Puts each value at the place its index names when its bits are read backwards. */
function scatter(values: Float64Array, into: Float64Array): void {
  const size = into.length
  for (let i = 0, at = 0; i < values.length; i++) {
    into[at] = values[i]!
    let bit = size >> 1
    for (; bit > 0 && (at & bit) !== 0; bit >>= 1) at ^= bit
    at |= bit
  }
}

/** Cosines and sines of half a turn in steps of one over `size`. */
function turns(size: number): [Float64Array, Float64Array] {
  const [cos, sin] = [new Float64Array(size >> 1), new Float64Array(size >> 1)]
  for (let k = 0; k < size / 2; k++) {
    cos[k] = Math.cos((2 * Math.PI * k) / size)
    sin[k] = Math.sin((2 * Math.PI * k) / size)
  }
  return [cos, sin]
}
