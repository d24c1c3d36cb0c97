import { expect, test } from 'vitest'
import { cycleIntervals, cycleSpeed } from '../../src/metrics/speed.ts'
import { present } from './analytic-wave.ts'

// 720 degrees in 150 ms are 800/min; a two-stroke turns once.
test('speed from one interval', () => {
  expect(present(cycleSpeed(0.15, { strokes: 4, sampleS: 2e-6 })).value).toBeCloseTo(800, 9)
  expect(present(cycleSpeed(0.15, { strokes: 2, sampleS: 2e-6 })).value).toBeCloseTo(400, 9)
  expect(cycleSpeed(undefined, { strokes: 4, sampleS: 2e-6 })).toEqual({ ok: false, why: 'no-next-event' })
})
test('missing events are counted by the rhythm of the neighbours', () => {
  expect(cycleIntervals([0, 0.15, 0.3, 0.75, 0.9]).missing).toEqual([0, 0, 2, 0])
})
test('an engine that runs up misses nothing', () => {
  const at = [0, 0.15, 0.28, 0.39, 0.48, 0.555, 0.615, 0.665]
  expect(cycleIntervals(at).missing).toEqual([0, 0, 0, 0, 0, 0, 0])
})

test('a cylinder that misses more often than not is seen through by the others', () => {
  const other = Array.from({ length: 12 }, (_, k) => 0.04 + 0.15 * k)
  const rare = [0, 0.45, 0.75, 1.2, 1.65]
  expect(cycleIntervals(rare, [other, other.map((t) => t + 0.04)]).missing).toEqual([2, 1, 2, 2])
  expect(cycleIntervals(other, [rare]).missing.every((k) => k === 0)).toBe(true)
})
