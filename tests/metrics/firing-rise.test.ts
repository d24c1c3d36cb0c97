import { expect, test } from 'vitest'
import { riseOf, standsOut } from '../../src/metrics/firing-rise.ts'
import { HEALTHY, waveOf } from './analytic-wave.ts'

test('climb of 0.7 kV/us at 2 us a sample', () => {
  const rise = riseOf(waveOf(HEALTHY))
  expect(rise.stepKv).toBeCloseTo(1.4, 6)
  expect(rise.peakInCollapse).toBe(false)
  // From a tenth of 10 kV (dwell rests at -1 kV) to 9 kV: 12.9 us, six to seven samples.
  expect(rise.samples).toBeGreaterThanOrEqual(6)
  expect(rise.samples).toBeLessThanOrEqual(7)
})

test('a first sample in the collapse that is still the highest is seen as such', () => {
  // The breakdown comes 0.1 us before a sample, when less than a twentieth of the fall is done.
  const wave = waveOf({ ...HEALTHY, phase: 0.95 })
  const rise = riseOf(wave)
  expect(rise.peakInCollapse).toBe(true)
  expect(rise.top).toBe(wave.peak - 1)
  expect(rise.stepKv).toBeCloseTo(1.4, 6)
})

test('stands out of the spark line', () => {
  expect(standsOut(waveOf(HEALTHY))).toBe(true)
  expect(standsOut(waveOf({ ...HEALTHY, firingKv: 1.5 }))).toBe(false)
})
