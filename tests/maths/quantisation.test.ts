import { expect, test } from 'vitest'
import { stepUncertainty } from '../../src/maths/quantisation.ts'
import { makeRandom } from '../../src/maths/random.ts'

// JCGM 100:2008, F.2.2.1: step / sqrt(12) for a reading that nothing blurs.
test('no noise', () => expect(stepUncertainty(1, 0)).toBeCloseTo(1 / Math.sqrt(12), 3))
test('no step', () => expect(stepUncertainty(0, 3)).toBe(0))

test.each([0.1, 0.2, 0.3])(
  'error of the mean of many rounded noisy readings, noise %d of a step',
  (noise) => {
    const random = makeRandom(17)
    let squares = 0
    const places = 60
    for (let k = 0; k < places; k++) {
      const truth = k / places
      let total = 0
      for (let i = 0; i < 4000; i++) total += Math.round(truth + noise * random.gaussian())
      squares += (total / 4000 - truth) ** 2
    }
    const chance = Math.hypot(noise, 0.29) / Math.sqrt(4000)
    expect(Math.abs(Math.sqrt(squares / places) - stepUncertainty(1, noise))).toBeLessThan(chance + 0.005)
  },
)
