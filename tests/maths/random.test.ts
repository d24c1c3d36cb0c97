import { expect, test } from 'vitest'
import { makeRandom } from '../../src/maths/random.ts'

test('the same seed gives the same run, another seed another', () => {
  const run = (seed: number) => {
    const r = makeRandom(seed)
    return Array.from({ length: 20 }, () => r.uniform())
  }
  expect(run(7)).toEqual(run(7))
  expect(run(7)).not.toEqual(run(8))
})

// An independent second implementation in exact whole numbers (BigInt), from the published recurrence of
// xoshiro128** (Blackman and Vigna 2021): result = rotl(s1 * 5, 7) * 9, shift 9, rotation 11.
test('follows the published recurrence', () => {
  const M = 0xffffffffn
  const rotl = (x: bigint, k: bigint) => ((x << k) | (x >> (32n - k))) & M
  let state = 12345n
  const start = () => {
    state = (state + 0x9e3779b9n) & M
    let z = state
    z = ((z ^ (z >> 16n)) * 0x21f0aaadn) & M
    z = ((z ^ (z >> 15n)) * 0x735a2d97n) & M
    return z ^ (z >> 15n)
  }
  const s = [start(), start(), start(), start()] as [bigint, bigint, bigint, bigint]
  const next = () => {
    const result = (rotl((s[1] * 5n) & M, 7n) * 9n) & M
    const t = (s[1] << 9n) & M
    s[2] ^= s[0]
    s[3] ^= s[1]
    s[1] ^= s[2]
    s[0] ^= s[3]
    s[2] ^= t
    s[3] = rotl(s[3], 11n)
    return result
  }
  const random = makeRandom(12345)
  for (let i = 0; i < 1000; i++) expect(random.integer(4294967296)).toBe(Number(next()))
})

test('moments of the even and the normal numbers', () => {
  const random = makeRandom(1)
  const n = 100_000
  let u = 0,
    g = 0,
    g2 = 0,
    g4 = 0
  for (let i = 0; i < n; i++) {
    u += random.uniform()
    const x = random.gaussian()
    g += x
    g2 += x * x
    g4 += x ** 4
  }
  // Four standard errors of each moment.
  expect(Math.abs(u / n - 0.5)).toBeLessThan(4 * Math.sqrt(1 / 12 / n))
  expect(Math.abs(g / n)).toBeLessThan(4 / Math.sqrt(n))
  expect(Math.abs(g2 / n - 1)).toBeLessThan(4 * Math.sqrt(2 / n))
  expect(Math.abs(g4 / n - 3)).toBeLessThan(4 * Math.sqrt(96 / n))
})

test('whole numbers stay below n and reach every value', () => {
  const random = makeRandom(3)
  const counts = new Array<number>(6).fill(0)
  for (let i = 0; i < 6000; i++) counts[random.integer(6)]! += 1
  for (const count of counts) expect(Math.abs(count - 1000)).toBeLessThan(4 * Math.sqrt((1000 * 5) / 6))
  expect(() => random.integer(0)).toThrow(RangeError)
})
