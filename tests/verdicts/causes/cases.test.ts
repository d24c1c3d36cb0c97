import { describe, expect, test } from 'vitest'
import { candidateKey } from '../../../src/verdicts/causes/candidates.ts'
import { makeRandom } from '../../../src/maths/random.ts'
import { BLIND_CASES } from './blind-cases.ts'
import { CASES } from './cases.ts'
import { FURTHER_CASES } from './further-cases.ts'
import { expected, firstOf, idOf, weighCase } from './case.ts'

/** Expectations of the cases: common practice, no source. */
describe.each([...CASES, ...FURTHER_CASES, ...BLIND_CASES].map((c) => [c.name, c] as const))(
  '%s',
  (_, worked) => {
    const weighed = weighCase(worked)

    test('the cause practice expects stands first, and none of those it excludes', () => {
      expect(expected(worked)).toContain(firstOf(weighed))
      expect(worked.never).not.toContain(idOf(firstOf(weighed)))
      if (worked.clear !== undefined) expect(weighed.standing.kind === 'clear').toBe(worked.clear)
    })

    test('shares are a distribution over all candidates', () => {
      expect(weighed.ledger.posterior.every((p) => p >= 0 && p <= 1)).toBe(true)
      expect(weighed.ledger.posterior.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12)
    })

    test('the order of the rows changes nothing', () => {
      const random = makeRandom(20260302)
      const shuffled = weighCase(worked, {
        order: (rows) =>
          rows
            .map((r) => ({ r, key: random.uniform() }))
            .sort((a, b) => a.key - b.key)
            .map(({ r }) => r),
      })
      const reversed = weighCase(worked, { order: (rows) => [...rows].reverse() })
      for (const other of [shuffled, reversed]) {
        other.ledger.posterior.forEach((p, i) => expect(p).toBeCloseTo(weighed.ledger.posterior[i]!, 12))
        expect(other.ledger.candidates.map(candidateKey)).toEqual(weighed.ledger.candidates.map(candidateKey))
        expect([other.standing.kind, other.next?.id]).toEqual([weighed.standing.kind, weighed.next?.id])
      }
    })

    test('leaving out any one row never makes another cause clear', () => {
      worked.log.forEach((_, left) => {
        const less = weighCase(worked, { log: worked.log.filter((_, i) => i !== left) })
        if (less.standing.kind === 'clear')
          expect(expected(worked), `without row ${left}`).toContain(firstOf(less))
      })
    })

    test('leaving out the captures never makes another cause clear', () => {
      const less = weighCase({ ...worked, burn: undefined, firing: {}, repair: 'not checked' })
      if (less.standing.kind === 'clear') expect(expected(worked)).toContain(firstOf(less))
    })
  },
)

test('there are at least 40 cases, over at least 18 causes', () => {
  expect(CASES.length).toBeGreaterThanOrEqual(40)
  expect(new Set(CASES.flatMap((c) => expected(c).map(idOf))).size).toBeGreaterThanOrEqual(18)
})
