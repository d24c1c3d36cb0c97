/** Seeded source of numbers for models and tests; the measuring chain itself uses none. */
export interface Random {
  /** Even over [0, 1), 53 bits. */
  uniform(): number
  /** Normal with mean 0 and standard deviation 1. */
  gaussian(): number
  /** Whole number, even over 0 .. n - 1. @throws RangeError unless n is a whole number from 1 to 2^32. */
  integer(n: number): number
}

/**
 * A reproducible generator: xoshiro128** started by SplitMix32, integers only, so that every platform gives
 * the same run of numbers for the same seed.
 *
 * The normal numbers come from the polar method (Marsaglia and Bray 1964), which asks only `sqrt` and `log`.
 *
 * @param seed  any finite number; its lower 32 bits count
 * @source      Blackman and Vigna 2021, ACM Transactions on Mathematical Software 47(4), 36
 */
export function makeRandom(seed: number): Random {
  const next = xoshiro128(seed)
  const uniform = (): number => ((next() >>> 5) * 67108864 + (next() >>> 6)) / 9007199254740992
  // Two normal numbers come at a time; the second waits here. Kept free of objects, since noise asks for millions.
  let spare = 0
  let hasSpare = false
  const gaussian = (): number => {
    if (hasSpare) {
      hasSpare = false
      return spare
    }
    for (;;) {
      const u = 2 * uniform() - 1
      const v = 2 * uniform() - 1
      const s = u * u + v * v
      if (s > 0 && s < 1) {
        const scale = Math.sqrt((-2 * Math.log(s)) / s)
        spare = v * scale
        hasSpare = true
        return u * scale
      }
    }
  }
  return { uniform, gaussian, integer: (n) => wholeBelow(n, next) }
}

/** Rejects the uneven rest of 2^32, so that no value is favoured. */
function wholeBelow(n: number, next: () => number): number {
  if (!Number.isInteger(n) || n < 1 || n > 4294967296)
    throw new RangeError(`integer(n) needs n from 1 to 2^32, got ${n}`)
  const limit = 4294967296 - (4294967296 % n)
  for (;;) {
    const drawn = next()
    if (drawn < limit) return drawn % n
  }
}

/** The generator proper: unsigned 32-bit whole numbers. */
function xoshiro128(seed: number): () => number {
  const start = splitMix32(seed)
  let a = start(),
    b = start(),
    c = start(),
    d = start()
  return () => {
    const result = Math.imul(rotateLeft(Math.imul(b, 5), 7), 9) >>> 0
    const t = b << 9
    c ^= a
    d ^= b
    b ^= c
    a ^= d
    c ^= t
    d = rotateLeft(d, 11)
    return result
  }
}

const rotateLeft = (x: number, k: number): number => (x << k) | (x >>> (32 - k))

/** Spreads a seed over the generator's state, so that near seeds give unlike runs. */
function splitMix32(seed: number): () => number {
  let state = seed | 0
  return () => {
    state = (state + 0x9e3779b9) | 0
    let z = state
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad)
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97)
    return z ^ (z >>> 15)
  }
}
