import { expect, test } from 'vitest'
import { firingIndex, placeAt, timeOf } from '../../src/ignition/firing-index.ts'

const even = Array.from({ length: 12 }, (_, i) => i * 0.02)

test('a gap where events were not found is counted', () => {
  const times = even.filter((_, i) => ![3, 7, 8].includes(i))
  expect(firingIndex(times).index).toEqual([0, 1, 2, 4, 5, 6, 9, 10, 11])
})

test('the count follows a speed that doubles within twelve firings', () => {
  let t = 0
  const times = even.map((_, i) => {
    t += 0.02 / (1 + i / 12)
    return t
  })
  expect(firingIndex(times).index).toEqual(even.map((_, i) => i))
})

test('a breakdown half way between two does not shift those after it', () => {
  expect(firingIndex([0, 0.02, 0.029, 0.04, 0.06, 0.08]).index).toEqual([0, 1, 1, 2, 3, 4])
})

test('place and time are inverse, beyond the ends too', () => {
  const times = even.filter((_, i) => i !== 5)
  const count = firingIndex(times)
  for (const at of [-0.03, 0.001, 0.0999, 0.117, 0.3])
    expect(timeOf(times, count, placeAt(times, count, at))).toBeCloseTo(at, 12)
})
