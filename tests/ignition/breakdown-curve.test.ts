import { expect, test } from 'vitest'
import { makeBlocks } from '../../src/ignition/blocks.ts'
import { breakdownCurve } from '../../src/ignition/breakdown-curve.ts'

/** A climb of 2 kV from dwell to a spark line whose top no sample caught, one sample in its middle. */
const CLIMB = Float32Array.from([0, -0.8, -0.8, -0.8, 0.1, 1.2, 1.2, 1.2, 1.2])
const most = (sampleS: number): number => Math.max(...breakdownCurve(makeBlocks(CLIMB, { sampleS, sign: 1 })))

test.each([50_000, 60_000])(
  'at %d samples a second a sample in the middle of a climb does not part it',
  (hz) => {
    expect(most(1 / hz)).toBeCloseTo(2, 5)
  },
)

test('slower samples lie too far apart for two steps to be one climb', () => {
  expect(most(1 / 25_000)).toBeCloseTo(1.1, 5)
})
