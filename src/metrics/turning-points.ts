/**
 * Turning points of a signal: highest and lowest samples in turn, each at least `least` from the one before.
 *
 * @param samples  shape (n), not changed
 * @param from     first sample looked at; it is the first turning point
 * @param least    smallest swing that counts, in the samples' unit
 * @returns        indices in rising order; the last is the end of the last full swing
 */
export function turningPoints(samples: ArrayLike<number>, from: number, least: number): number[] {
  const turns: number[] = []
  let high = from
  let low = from
  // 1 while climbing from a low, -1 while falling from a high, 0 before the first swing is known.
  let heading = 0
  for (let i = from; i < samples.length; i++) {
    if (samples[i]! > samples[high]!) high = i
    if (samples[i]! < samples[low]!) low = i
    if (heading >= 0 && samples[high]! - samples[i]! >= least) {
      turns.push(high)
      heading = -1
      low = i
      high = i
    } else if (heading <= 0 && samples[i]! - samples[low]! >= least) {
      turns.push(low)
      heading = 1
      high = i
      low = i
    }
  }
  const last = heading > 0 ? high : low
  if (heading !== 0 && last !== turns.at(-1)) turns.push(last)
  return turns
}
