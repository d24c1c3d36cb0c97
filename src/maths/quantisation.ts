/**
 * Standard uncertainty left by a recorder's steps after averaging many samples: random noise of standard deviation
 * `spread` blurs the steps, so that the mean error falls off very fast once the noise exceeds half a step. Sum over
 * the harmonics of the step error; step / sqrt(12) without noise.
 *
 * @param step    height of one recorder step
 * @param spread  standard deviation of what moves the samples over the steps, same unit
 * @source        Widrow and Kollar 2008, Quantization Noise, ch. 4 and 16 (moments of quantised normal noise)
 */
export function stepUncertainty(step: number, spread: number): number {
  if (!(step > 0)) return 0
  const blur = (2 * Math.PI * spread) / step
  if (blur === 0) return step / Math.sqrt(12)
  let variance = 0
  for (let k = 1; k <= 200; k++) {
    const term = ((step / (Math.PI * k)) ** 2 / 2) * Math.exp(-((blur * k) ** 2))
    variance += term
    if (term < variance * 1e-6) break
  }
  return Math.sqrt(variance)
}
