import { describe, expect, test } from 'vitest'
import { near, nearest, slips } from '../../src/problems/nearest.ts'

// The four kinds of slip of Damerau 1964, one each, and the classic pair CA - ABC, on which the restricted distance
// (3) and the unrestricted one (2) differ. Counted by hand.
describe('slips', () => {
  test.each([
    ['idle', 'idle', 0],
    ['stage', 'stag', 1],
    ['stage', 'staage', 1],
    ['stage', 'stake', 1],
    ['stage', 'satge', 1],
    ['ca', 'abc', 3],
    ['kitten', 'sitting', 3],
    ['', 'sync', 4],
    ['Stage', 'stage', 0],
  ])('%s to %s: %i', (a, b, count) => {
    expect(slips(a, b)).toBe(count)
    expect(slips(b, a)).toBe(count)
  })

  test('long words cost bounded work', () => {
    expect(slips('x'.repeat(1_000_000), 'y'.repeat(1_000_000))).toBe(64)
  })
})

describe('nearest', () => {
  test('fewest slips wins', () => expect(nearest('taken_at', ['stage', 'taken', 'time'])).toBe('taken'))
  test('first of equals', () => expect(nearest('cot', ['cat', 'cut'])).toBe('cat'))
  test('nothing known', () => expect(nearest('cot', [])).toBe(''))
})

// A suggestion that nobody meant sends the reader astray: better none.
test.each([
  ['sprai', ['smoke', 'spray'], 'spray'],
  ['secondary', ['sync_v', 'secondary_kv'], 'secondary_kv'],
  ['C02', ['CO', 'CO2', 'O2'], 'CO2'],
  ['wobble', ['code', 'note'], ''],
  ['E15', ['E0', 'E5', 'E10'], ''],
  ['nofile.csv', ['base.sh'], ''],
  ['x', [], ''],
])('near %s of %j: %j', (word, known, expected) => expect(near(word, known)).toBe(expected))
