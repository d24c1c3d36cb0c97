import { expect, test } from 'vitest'
import { makeRandom } from '../../src/maths/random.ts'
import { withSpeed } from '../../src/metrics/with-speed.ts'

/** Late rise that falls by 4 points for every 100 rpm, on an idle that swings from 650 to 900 rpm. */
const swing = (slope: number, seed: number) => {
  const random = makeRandom(seed)
  return Array.from({ length: 24 }, (_, i) => {
    const rpm = 775 + 125 * Math.sin(i)
    return { rpm, value: 39 + slope * (rpm - 775) + 3 * random.gaussian() }
  })
}

test('both ends of the swing are told', () => {
  const { lowRpm, highRpm, atLow, atHigh } = withSpeed(swing(-0.04, 1))!
  expect(Math.abs(lowRpm - 656)).toBeLessThan(6)
  expect(Math.abs(highRpm - 894)).toBeLessThan(6)
  expect(Math.abs(atLow - 44)).toBeLessThan(2)
  expect(Math.abs(atHigh - 34)).toBeLessThan(2)
})

test('scatter alone is not taken for it, and a steady speed shows nothing', () => {
  const found = Array.from({ length: 300 }, (_, seed) => withSpeed(swing(0, seed + 10)))
  expect(found.filter((f) => f !== undefined).length).toBeLessThanOrEqual(2)
  expect(withSpeed(swing(0, 1).map((e) => ({ ...e, rpm: 800 })))).toBeUndefined()
  expect(withSpeed(swing(-0.04, 1).slice(0, 9))).toBeUndefined()
})

test('values all alike, as coarse steps leave them, depend on nothing', () => {
  expect(withSpeed(swing(0, 1).map((e) => ({ ...e, value: 40 })))).toBeUndefined()
  expect(withSpeed(swing(0, 1).map((e) => ({ ...e, value: 0 })))).toBeUndefined()
})

// Truth: the line the values were drawn about.
test('the interval at either end holds its truth about as often as it says', () => {
  const runs = Array.from({ length: 400 }, (_, seed) => withSpeed(swing(-0.08, seed + 1000))!)
  const held = runs.filter((w) => Math.abs(w.atLow - (39 - 0.08 * (w.lowRpm - 775))) <= w.lowReach).length
  expect(held / runs.length).toBeGreaterThan(0.92)
  expect(held / runs.length).toBeLessThan(0.98)
})
