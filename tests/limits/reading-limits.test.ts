import { expect, test } from 'vitest'
import { loadLimits, loadSources } from '../../src/limits/limits.ts'
import { loadReadingLimits, readingLimits } from '../../src/limits/reading-limits.ts'

test('every key of the template is a bound of its own: halving it moves one, and only that', () => {
  const shipped = readingLimits()
  const moved = Object.entries(loadReadingLimits()).map(([key, { value }]) => {
    const half = readingLimits({ [key]: value / 2 })
    return Object.entries(half)
      .filter(([name, bound]) => bound !== shipped[name as keyof typeof shipped])
      .map(([name, bound]) => [name, bound * 2])
  })
  expect(moved.every((one) => one.length === 1)).toBe(true)
  expect(Object.fromEntries(moved.flat())).toEqual(shipped)
})

test('units are those the template states', () => {
  expect(readingLimits({ captureMostMib: 1, rowMostKib: 1, photoMostMib: 0.5 })).toMatchObject({
    textBytes: 1_048_576,
    lineBytes: 1024,
    photoBytes: 524_288,
  })
})

test('no key is a limit of judging as well, and every origin is listed', () => {
  const reading = loadReadingLimits()
  expect(Object.keys(reading).filter((key) => key in loadLimits())).toEqual([])
  expect(Object.values(reading).filter(({ origin }) => !(origin in loadSources()))).toEqual([])
})

test.each([{ rows: 5 }, { captureMostRows: 0 }, { captureMostRows: -1 }, { captureMostRows: Number.NaN }])(
  '%j is refused by name',
  (own) => {
    expect(() => readingLimits(own as unknown as Record<string, number>)).toThrow(Object.keys(own)[0])
  },
)
