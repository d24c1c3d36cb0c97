import { expect, test } from 'vitest'
import { burnLengthMs, sparkLineOf } from '../../src/metrics/spark-line.ts'
import { HEALTHY, waveOf } from './analytic-wave.ts'

const wave = waveOf(HEALTHY)
test.each([
  ['cut by the file', wave, ['partial'], 'partial'],
  ['none', { ...wave, sparkEnd: undefined }, [], 'no-spark-line'],
  ['clipped', wave, ['line_clipped'], 'clipped'],
  ['a few samples', { ...wave, sparkEnd: wave.breakdown + 5 }, [], 'too-short'],
] as const)('barred: %s', (_, given, flags, why) =>
  expect(sparkLineOf(given, flags)).toEqual({ ok: false, why }),
)

test('its length, and a doubt about its end of at least an even spread over a sample', () => {
  const line = sparkLineOf(wave, [])
  if (!line.ok) throw new Error(line.why)
  expect(burnLengthMs(line)).toBeCloseTo(1.4, 9)
  expect(line.endU).toBeGreaterThan(1 / Math.sqrt(12))
})
