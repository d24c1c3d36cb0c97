import { expect, test } from 'vitest'
import { holm } from '../../../src/test-log/spray/holm.ts'
import { rankTest, shuffledTest, stretchesNeeded } from '../../../src/test-log/spray/rank-test.ts'
import type { WindowScan } from '../../../src/test-log/spray/scan-window.ts'

const window = (up: number, down = 0): WindowScan => {
  const hit = (score: number) => ({ score, rpm: score, seRpm: 1, onset: 2, lastsS: 1 })
  return { up: hit(up), down: hit(down) }
}
const windows = (...ups: number[]) => ups.map((u) => window(u))
const p = (sprays: WindowScan[], among: WindowScan[]) => rankTest([{ sprays, among }])

test('one spray: its rank among all windows (counted by hand)', () => {
  expect(p(windows(9), windows(1, 2, 3, 4)).p).toBeCloseTo(1 / 5, 12)
  expect(p(windows(2.5), windows(1, 2, 3, 4)).p).toBeCloseTo(3 / 5, 12)
  expect(p(windows(0), windows(1, 2, 3, 4)).p).toBe(1)
})

test('the floor is what the numbers of windows allow', () => {
  expect(p(windows(9), windows(...Array.from({ length: 19 }, (_, i) => i))).floor).toBeCloseTo(0.05, 12)
  expect(p(windows(9, 8), windows(1, 2, 3, 4)).floor).toBeCloseTo(1 / 15, 12)
})

test('two repeats: all pairs of windows (counted by hand: 15 pairs, 9+4 only in one)', () => {
  expect(p(windows(9, 4), windows(1, 2, 3, 3.5)).p).toBeCloseTo(1 / 15, 12)
  // pairs with a sum of at least 9 + 3 = 12: 9+3, 9+4
  expect(p(windows(9, 3), windows(1, 2, 2.5, 4)).p).toBeCloseTo(2 / 15, 12)
})

test('repeats in opposite directions do not add up', () => {
  const apart = rankTest([{ sprays: [window(9), window(0, 9)], among: windows(5, 5, 1, 1, 1, 1) }])
  const alike = rankTest([{ sprays: [window(9), window(9)], among: windows(5, 5, 1, 1, 1, 1) }])
  expect(apart.p).toBeGreaterThan(alike.p)
})

test('exact over all choices: under chance every rank is equally likely', () => {
  // Each of 8 windows in turn taken as the sprayed one: p must take 1/8 ... 8/8 once each.
  const values = [0.3, 2.1, 1.7, 0.9, 3.3, 2.8, 0.1, 1.2]
  const all = values
    .map((v, i) => p(windows(v), windows(...values.filter((_, k) => k !== i))).p)
    .sort((a, b) => a - b)
  all.forEach((value, i) => expect(value).toBeCloseTo((i + 1) / 8, 12))
})

test('two traces are two strata', () => {
  const both = rankTest([
    { sprays: windows(9), among: windows(1, 2, 3) },
    { sprays: windows(8), among: windows(1, 2, 3, 4) },
  ])
  expect([both.p, both.floor]).toEqual([1 / 20, 1 / 20])
})

test('many choices are drawn, with the same result for the same input', () => {
  const among = windows(...Array.from({ length: 60 }, (_, i) => (i * 7) % 60))
  const twice = [0, 1].map(() => p(windows(58, 57, 59, 55), among).p)
  expect(twice[0]).toBe(twice[1])
  expect(twice[0]).toBeLessThan(0.01)
})

test('rank among rearranged stretches', () => {
  const shuffled = windows(...Array.from({ length: 99 }, (_, i) => i))
  expect(shuffledTest([{ sprays: windows(200), shuffled }])).toBeCloseTo(0.01, 12)
  expect(shuffledTest([{ sprays: windows(49.5), shuffled }])).toBeCloseTo(0.5, 1)
})

test('stretches a rank test needs: 19 for 0.05, 39 for two places, few for repeats', () => {
  expect([
    stretchesNeeded(1, 0.05),
    stretchesNeeded(1, 0.025),
    stretchesNeeded(2, 0.05),
    stretchesNeeded(3, 0.05),
  ]).toEqual([19, 39, 5, 3])
})

// Holm 1979; values by hand: 0.01 x 4, 0.013 x 3, max(0.014 x 2, before), max(0.19, before)
test('correction for several places', () => {
  expect(holm([0.014, 0.01, 0.19, 0.013]).map((v) => Number(v.toFixed(6)))).toEqual([0.04, 0.04, 0.19, 0.04])
  expect(holm([0.6, 0.7])).toEqual([1, 1])
  expect(holm([])).toEqual([])
})
