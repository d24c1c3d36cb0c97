import { expect, test } from 'vitest'
import { lombScargle } from '../../src/maths/lomb-scargle.ts'
import { referenceJson, relativeGap } from './reference-data.ts'

// A made series of closed form; expected values by scipy 1.10.1, equal to Scargle 1982, equation 10, coded by hand.
const round = (v: number, digits: number) => Math.round(v * 10 ** digits) / 10 ** digits
const timesS = Array.from({ length: 60 }, (_, k) =>
  round(0.25 * k + 0.07 * Math.sin(1.7 * k) + 0.05 * Math.cos(0.31 * k * k), 6),
)
const values = timesS.map((t, k) =>
  round(
    750 +
      18 * Math.sin(2 * Math.PI * 0.42 * t + 0.3) +
      6 * Math.sin(2 * Math.PI * 1.1 * t - 0.8) +
      1.5 * Math.cos(3.1 * k),
    4,
  ),
)
const hz = Array.from({ length: 196 }, (_, i) => 0.05 + 0.01 * i)

// The recipe has no outside rounding rule for t = 0, where the printed series starts at 0.05 s.
test('peak of an uneven series at 0.42 Hz', () => {
  const { power, share } = lombScargle({ timesS, values }, hz)
  const best = power.indexOf(Math.max(...power))
  expect(hz[best]).toBeCloseTo(0.42, 9)
  expect(relativeGap(power[best]!, 5068.662138404357)).toBeLessThan(1e-6)
  expect(relativeGap(share[best]!, 0.9056814207613892)).toBeLessThan(1e-6)
})

test('whole reference series', () => {
  const file = referenceJson<{
    lomb_scargle: { t_s: number[]; y: number[]; power_every_10th: [number, number][] }
  }>('spectral-check.json')
  const { t_s: times, y, power_every_10th: expected } = file.lomb_scargle
  const { power } = lombScargle(
    { timesS: times, values: y },
    expected.map(([f]) => f),
  )
  expected.forEach(([f, p], k) => expect(relativeGap(power[k]!, p), `${f} Hz`).toBeLessThan(1e-6))
})

test('a constant series has no power', () => {
  expect(Math.max(...lombScargle({ timesS: [0, 1, 2.5], values: [4, 4, 4] }, [0.3, 0.7]).share)).toBe(0)
})
