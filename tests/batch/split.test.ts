import { expect, test } from 'vitest'
import { partOf } from '../../src/batch/split.ts'

/** Sizes over four powers of ten, as batches have them. */
const jobs = Array.from({ length: 97 }, (_, i) => ({
  folder: `job-${i}`,
  bytes: Math.round(10 ** (4 + (4 * ((i * 37) % 97)) / 97)),
}))
const parts = (of: number, from = jobs) =>
  Array.from({ length: of }, (_, i) => partOf(from, { index: i + 1, of }))

test.each([1, 2, 5, 97, 200])('%i parts hold every job once', (of) => {
  expect(
    parts(of)
      .flat()
      .map((j) => j.folder)
      .sort(),
  ).toEqual(jobs.map((j) => j.folder).sort())
})

test('the split hangs on names and sizes, not on the order of the list', () => {
  const names = (list: typeof jobs) => list.map((j) => j.folder).sort()
  expect(parts(4, [...jobs].reverse()).map(names)).toEqual(parts(4).map(names))
})

test('a part keeps the order given', () => {
  const second = partOf(jobs, { index: 2, of: 3 })
  expect(second).toEqual(jobs.filter((j) => second.includes(j)))
})

/** Graham 1969, theorem 2: longest first is within 4/3 - 1/(3n) of the best split, which is no better than the mean. */
test('parts are about equal work', () => {
  const fixed = 8 * 2 ** 20
  const loads = parts(4).map((part) => part.reduce((sum, j) => sum + j.bytes + fixed, 0))
  const mean = loads.reduce((a, b) => a + b) / 4
  expect(Math.max(...loads)).toBeLessThanOrEqual(
    (4 / 3 - 1 / 12) * Math.max(mean, Math.max(...jobs.map((j) => j.bytes + fixed))),
  )
})
