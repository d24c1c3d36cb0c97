import { expect, test } from 'vitest'
import { burnTimeMs } from '../../src/metrics/burn-time.ts'
import { PICKED_EARLY_MS } from '../../src/metrics/spark-line.ts'
import { HEALTHY, present, waveOf } from './analytic-wave.ts'

test('breakdown to spark end', () => {
  const burn = present(burnTimeMs(waveOf(HEALTHY), []))
  // The wave's end is as it would be picked, a little early.
  expect(burn.value).toBeCloseTo(1.4 + PICKED_EARLY_MS, 9)
  // Two instants, each even within one sampling interval: 2 us / sqrt(12) each.
  expect(burn.budget!.find((l) => l.source === 'sampling')!.u).toBeCloseTo(
    (0.002 / Math.sqrt(12)) * Math.SQRT2,
    12,
  )
})
test('none without a line, or cut by the file', () => {
  expect(burnTimeMs({ ...waveOf(HEALTHY), sparkEnd: undefined }, [])).toEqual({
    ok: false,
    why: 'no-spark-line',
  })
  expect(burnTimeMs(waveOf(HEALTHY), ['partial'])).toEqual({ ok: false, why: 'partial' })
})
