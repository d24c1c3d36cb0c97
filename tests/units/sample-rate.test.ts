import { expect, test } from 'vitest'
import { sampleRateOf } from '../../src/units/sample-rate.ts'

test.each([
  ['500k', 500_000],
  ['500 kS/s', 500_000],
  ['0.5 MHz', 500_000],
  ['0,5 MSa/s', 500_000],
  ['2 us', 500_000],
  ['2 µs', 500_000],
  ['2.0000E-06 s', 500_000],
  ['2E-0006 s', 500_000],
  ['0,004 ms', 250_000],
  ['250000', 250_000],
  ['250000 samples per second', 250_000],
])('%s', (written, hz) => expect(sampleRateOf(written)).toBeCloseTo(hz, 3))

test.each(['5', 'fast', '', '-3 us', '0 Hz', '12 V'])('“%s” is no rate', (written) =>
  expect(sampleRateOf(written)).toBeUndefined(),
)
