import { expect, test } from 'vitest'
import { firingIndex, placeAt, timeOf } from '../../src/ignition/firing-index.ts'

const even = Array.from({ length: 12 }, (_, i) => i * 0.02)

test('a gap where events were not found is counted', () => {
  const times = even.filter((_, i) => ![3, 7, 8].includes(i))
  const { index, sure } = firingIndex(times, 0.02)
  expect(index).toEqual([0, 1, 2, 4, 5, 6, 9, 10, 11])
  expect(sure.every(Boolean)).toBe(true)
})

test('the count follows a speed that doubles within twelve firings', () => {
  let t = 0
  const times = even.map((_, i) => {
    t += 0.02 / (1 + i / 12)
    return t
  })
  expect(firingIndex(times, 0.02).index).toEqual(even.map((_, i) => i))
})

test('a breakdown half way between two is beyond no doubt', () => {
  const { index, sure } = firingIndex([0, 0.02, 0.029, 0.04], 0.02)
  expect(index).toEqual([0, 1, 1, 2])
  expect(sure).toEqual([true, true, false, false])
})

test('place and time are inverse, beyond the ends too', () => {
  const times = even.filter((_, i) => i !== 5)
  const count = firingIndex(times, 0.02)
  for (const at of [-0.03, 0.001, 0.0999, 0.117, 0.3])
    expect(timeOf(times, count, placeAt(times, count, at))).toBeCloseTo(at, 12)
})
