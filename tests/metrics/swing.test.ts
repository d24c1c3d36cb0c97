import { expect, test } from 'vitest'
import type { CycleSpeed } from '../../src/metrics/cycle-speeds.ts'
import { findSwing } from '../../src/metrics/swing.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { present } from './analytic-wave.ts'

/** Cycle speeds of four cylinders from a speed over time, each the mean over its cycle, with noise between cycles. */
function series(
  speed: (t: number) => number,
  { seconds, noise }: { seconds: number; noise: () => (k: number) => number },
): CycleSpeed[][] {
  const jitter = noise()
  const angle = [0]
  const dt = 1e-3
  for (let i = 1; i * dt < seconds; i++) angle.push(angle[i - 1]! + (speed(i * dt) / 60) * dt)
  return [0, 0.5, 1, 1.5].map((offset) => {
    const at: number[] = []
    for (let turn = offset; turn < angle.at(-1)!; turn += 2) {
      const i = angle.findIndex((a) => a >= turn)
      at.push(i * dt - (angle[i]! - turn) / (speed(i * dt) / 60))
    }
    return at.slice(1).map((t, k) => {
      const interval = t - at[k]!
      return {
        atS: at[k]! + interval / 2,
        intervalS: interval,
        rpm: 120 / interval + jitter(Math.round(at[k]! / interval)),
      }
    })
  })
}

/** One value a working cycle, shared by all cylinders: white, or wandering with the given memory. */
const luck = (seed: number, sd: number, memory: number) => () => {
  const random = makeRandom(seed)
  const values: number[] = []
  for (let k = 0, v = 0; k < 400; k++) {
    v = memory * v + sd * Math.sqrt(1 - memory * memory) * random.gaussian()
    values.push(v)
  }
  return (k: number) => values[k]!
}

// Truth: 60/min peak to peak, 1.6 s.
test('a swinging idle', () => {
  const { swing, period } = findSwing(
    series((t) => 750 + 30 * Math.sin((2 * Math.PI * t) / 1.6), { seconds: 15, noise: luck(1, 4, 0) }),
  )
  expect(Math.abs(present(swing).value - 60)).toBeLessThan(3 * present(swing).u + 1)
  expect(Math.abs(present(period).value - 1.6)).toBeLessThan(3 * present(period).u + 0.005)
  expect(present(swing).u).toBeLessThan(6)
})

test.each([
  ['steady', 0],
  ['wandering', 0.7],
  ['strongly wandering', 0.9],
])('no swing is found in a %s idle', (_, memory) => {
  let found = 0
  const runs = 60
  for (let run = 0; run < runs; run++) {
    if (findSwing(series(() => 760, { seconds: 12, noise: luck(50 + run, 6, memory) })).swing.ok) found++
  }
  expect(found).toBeLessThanOrEqual(4)
})

test('too short a capture', () => {
  expect(findSwing(series(() => 800, { seconds: 1, noise: luck(3, 3, 0) })).swing).toEqual({
    ok: false,
    why: 'too-few-events',
  })
})
