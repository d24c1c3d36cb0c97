import { expect, test } from 'vitest'
import { plugTopCapture } from '../../src/model/capture-parameters.ts'
import { droop } from '../../src/model/pickup.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'

test('a step droops by exp(-t / tau) (closed form of a first-order high-pass)', () => {
  const step = Float64Array.from({ length: 2001 }, (_, i) => (i === 0 ? 0 : 1))
  const out = droop(step, 1e-3, 1e-6)
  expect(out[1001]! / out[1]!).toBeCloseTo(Math.exp(-1), 9)
  expect(droop(step, Infinity, 1e-6)).toEqual(step)
})

test('crosstalk brings the stated share of a neighbour and nothing more', () => {
  const parameters = plugTopCapture({ cylinders: 3, seed: 5, durationS: 0.3, recorded: [1] })
  const crossed = { ...parameters, pickups: [{ ...parameters.pickups[0]!, crosstalk: 0.1 }] }
  const alone = plugTopCapture({ cylinders: 3, seed: 5, durationS: 0.3, recorded: [2] })
  const [own, mixed, other] = [parameters, crossed, alone].map((p) => simulateCapture(p))
  const event = other!.truth.events.find((e) => e.complete)!
  const i = Math.round((event.breakdownS + 0.5e-3) / own!.sampleS)
  expect(own!.channels[0]!.clean[i]).toBe(0)
  expect(mixed!.channels[0]!.clean[i]!).toBeCloseTo(0.1 * other!.channels[0]!.clean[i]!, 9)
})
