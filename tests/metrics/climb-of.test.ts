import { expect, test } from 'vitest'
import { climbOf } from '../../src/metrics/climb-of.ts'
import { eventOf, HEALTHY, waveOf } from './analytic-wave.ts'

const events = (sampleS: number, count: number) =>
  Array.from({ length: count }, (_, i) => eventOf(waveOf({ ...HEALTHY, sampleS, phase: (i + 0.5) / count })))

test('gain and share of the collapse over evenly spread phases', () => {
  const climb = climbOf(events(2e-6, 40))
  expect(climb.gain!.gainKv).toBeCloseTo(1.4, 2)
  expect(climb.gain!.slope).toBeCloseTo(0, 2)
  // In about a tenth of the interval the collapse has not yet lost what the climb gained.
  expect(climb.collapseShare).toBeGreaterThan(0.03)
  expect(climb.collapseShare).toBeLessThan(0.25)
})
test('too few events or too slow a recorder show no climb', () => {
  expect(climbOf([]).gain).toBeUndefined()
  expect(climbOf(events(5e-5, 20)).gain).toBeUndefined()
})
