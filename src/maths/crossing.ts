/**
 * Where samples cross a level, by linear interpolation between the two samples about it.
 *
 * @param samples  shape (n)
 * @param level    in the samples' unit
 * @param from     first sample looked at, 0 unless given
 * @returns        fractional index and direction of the first crossing at or after `from`; undefined where none is
 * @source         IEEE Std 181-2011, 5.3 (reference level instant)
 */
export function nextCrossing(
  samples: ArrayLike<number>,
  level: number,
  from = 0,
): { index: number; rising: boolean } | undefined {
  for (let i = Math.max(0, from); i + 1 < samples.length; i++) {
    const here = samples[i]! - level
    const next = samples[i + 1]! - level
    if (here < 0 !== next < 0) return { index: i + here / (here - next), rising: here < 0 }
  }
  return undefined
}
