import { expect, test } from 'vitest'
import { dwellMs } from '../../src/metrics/dwell.ts'
import { HEALTHY, present, waveOf } from './analytic-wave.ts'

test('dwell start to the start of the climb, within two samples', () => {
  expect(Math.abs(present(dwellMs(waveOf(HEALTHY))).value - 3.5)).toBeLessThan(0.004)
})
test('not visible', () => {
  expect(dwellMs({ ...waveOf(HEALTHY), dwellStart: undefined })).toEqual({ ok: false, why: 'not-visible' })
})
