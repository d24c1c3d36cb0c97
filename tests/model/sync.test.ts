import { expect, test } from 'vitest'
import { makeRandom } from '../../src/maths/random.ts'
import { drawPulses, GOOD_SYNC_CLAMP, syncV } from '../../src/model/sync.ts'

const struck = Array.from({ length: 4000 }, (_, i) => i * 0.1)

test('missing and stray pulses come at the stated rates (binomial and Poisson, 4 standard deviations)', () => {
  const pulses = drawPulses(
    { ...GOOD_SYNC_CLAMP, missingShare: 0.1, extraPerS: 0.5 },
    struck,
    400,
    makeRandom(3),
  )
  const count = (kind: string): number => pulses.filter((p) => p.kind === kind).length
  expect(Math.abs(count('true') - 3600)).toBeLessThan(4 * Math.sqrt(4000 * 0.1 * 0.9))
  expect(Math.abs(count('stray') - 200)).toBeLessThan(4 * Math.sqrt(200))
  expect(pulses.every((p, i) => i === 0 || p.atS >= pulses[i - 1]!.atS)).toBe(true)
})

test('a pulse rises at once and decays with its time constant', () => {
  const volts = syncV(GOOD_SYNC_CLAMP, [{ atS: 1e-4, kind: 'true' }], 1000, 1e-6)
  expect(volts[99]).toBe(0)
  // Crest of (1 - exp(-t/r)) exp(-t/d), closed form, r 2 us and d 80 us.
  expect(Math.max(...volts)).toBeCloseTo(4.5 * (80 / 82) * (2 / 82) ** (2 / 80), 2)
  expect(volts[200]! / volts[120]!).toBeCloseTo(Math.exp(-1), 3)
})
