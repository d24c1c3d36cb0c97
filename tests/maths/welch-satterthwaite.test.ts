import { expect, test } from 'vitest'
import { coverageFactor } from '../../src/maths/student-t.ts'
import { effectiveFreedom } from '../../src/maths/welch-satterthwaite.ts'

// JCGM 100:2008, example H.1 (end gauge): 25, 9.7, 2.9, 16.6 nm with 18, 25.6, 50, 2 degrees of freedom; the unrounded
// combined uncertainty gives 16.77 (printed 16.7, used 16), and t at 99 % is 2.92.
test('JCGM 100 H.1', () => {
  const freedom = effectiveFreedom([
    { u: 25, freedom: 18 },
    { u: 9.7, freedom: 25.6 },
    { u: 2.9, freedom: 50 },
    { u: 16.6, freedom: 2 },
  ])
  expect(Math.abs(freedom - 16.77)).toBeLessThan(0.01)
  expect(Math.abs(coverageFactor(0.99, Math.floor(freedom)) - 2.92)).toBeLessThan(0.005)
})
test('known contributions alone have no end of freedom', () => {
  expect(effectiveFreedom([{ u: 1, freedom: Infinity }])).toBe(Infinity)
})
