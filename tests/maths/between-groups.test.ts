import { expect, test } from 'vitest'
import { betweenGroups } from '../../src/maths/between-groups.ts'
import { medianInterval } from '../../src/maths/median-interval.ts'
import { makeRandom } from '../../src/maths/random.ts'

test('one group, or groups without any difference, add nothing', () => {
  expect(betweenGroups([])).toBe(0)
  expect(betweenGroups([[1, 2, 3]])).toBe(0)
  expect(betweenGroups([[2, 2], [], [2, 2]])).toBe(0)
})

test('groups that lie apart add about what their middles scatter', () => {
  const apart = betweenGroups([
    [0, 0.1, -0.1, 0],
    [3, 3.1, 2.9, 3],
    [6, 6.1, 5.9, 6],
  ])
  // Student's t of two degrees of freedom would make 4.3 * 3 / sqrt(3) = 7.5 of it; the prior trusts it less.
  expect(apart).toBeGreaterThan(3)
  expect(apart).toBeLessThan(9)
})

/** Truth: the middle of groups drawn anew, each from a middle of its own. */
test.each([0, 0.3, 0.6])(
  'the interval of three groups that differ by %d of their scatter holds the truth',
  (between) => {
    const random = makeRandom(11)
    const trials = 600
    let held = 0
    let plain = 0
    for (let t = 0; t < trials; t++) {
      const groups = Array.from({ length: 3 }, () => {
        const own = between * random.gaussian()
        return Array.from({ length: 6 }, () => own + random.gaussian())
      })
      const { value, low, high } = medianInterval(groups.flat())!
      const half = betweenGroups(groups)
      if (value - Math.hypot(value - low, half) <= 0 && value + Math.hypot(high - value, half) >= 0) held++
      if (low <= 0 && high >= 0) plain++
    }
    expect(held / trials).toBeGreaterThan(0.94)
    // Without it, groups that differ are too often missed.
    if (between > 0.5) expect(plain / trials).toBeLessThan(0.88)
  },
)
