import { expect, test } from 'vitest'
import { changedLimits } from '../../src/limits/changed-limits.ts'
import { loadLimits, withValues } from '../../src/limits/limits.ts'
import { SHIPPED_LIMITS } from '../../src/limits/shipped-limits.ts'

const limits = loadLimits()

test('the shipped values are those of templates/limits.yaml', () => {
  expect(SHIPPED_LIMITS).toEqual(Object.fromEntries(Object.entries(limits).map(([key, l]) => [key, l.value])))
})

test('a changed limit is found, an unchanged one is not', () => {
  expect([...changedLimits(limits)]).toEqual([])
  expect([...changedLimits(withValues(limits, { lateRisePct: 25 }))]).toEqual(['lateRisePct'])
})

test('a limit that does not exist is refused and the known ones are named', () => {
  expect(() => withValues(limits, { lateRise: 25 })).toThrow(/lateRise.*lateRisePct/)
})
