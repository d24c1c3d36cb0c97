import { expect, test } from 'vitest'
import { rateDoubt } from '../../src/chain/rate-doubt.ts'
import type { CaptureEntry } from '../../src/job/schema.ts'
import type { IgnitionEvent } from '../../src/ignition/event.ts'

/** Sparks of four cylinders in turn at a speed, as a recorder whose rate is stated `factor` times too high sees them. */
function doubt(
  rpm: number,
  factor: number,
  { condition = 'idle', ignition = 'distributor' as const, count = 24 } = {},
) {
  const stepS = 30 / rpm / factor
  const events = Array.from({ length: count }, (_, i) => ({
    cylinder: 1 + (i % 4),
    channel: 0,
    breakdownS: i * stepS,
  })) as IgnitionEvent[]
  const entry = { condition } as CaptureEntry
  return rateDoubt({ file: 'a.csv', entry }, { events }, { strokes: 4, ignition })
}

// 780 rpm of a four-stroke are 6.5 sparks of a cylinder a second.
test('a rate off by ten is asked about, either way, with what it would make of the engine', () => {
  expect(doubt(780, 1)).toBeUndefined()
  expect(doubt(780, 10)).toMatchObject({ code: 'rate-doubtful', severity: 'warn' })
  expect(doubt(780, 10)!.args).toEqual({
    perS: expect.closeTo(65, 6),
    rpm: expect.closeTo(7800, 6),
    condition: 'idle',
    usual: '350 … 2000',
  })
  expect(doubt(780, 0.1)!.args).toMatchObject({ rpm: expect.closeTo(78, 6) })
})

test('the condition counts: 2500 rpm held is no idle, a snap is any speed, cranking is slow', () => {
  expect(doubt(2500, 1)).toBeDefined()
  expect(doubt(2500, 1, { condition: '2500 rpm' })).toBeUndefined()
  expect(doubt(5200, 1, { condition: 'snap' })).toBeUndefined()
  expect(doubt(210, 1, { condition: 'cranking' })).toBeUndefined()
  expect(doubt(780, 1, { condition: 'cranking' })).toBeDefined()
})

test('too few sparks say nothing', () => {
  expect(doubt(780, 10, { count: 7 })).toBeUndefined()
  expect(doubt(780, 10, { count: 8 })).toBeDefined()
})
