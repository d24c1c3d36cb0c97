import { expect, test } from 'vitest'
import { withBudget } from '../../src/metrics/budget.ts'
import { earlyChangeKv } from '../../src/metrics/early-change.ts'
import { absent } from '../../src/units/measured.ts'
import { present } from './analytic-wave.ts'

const level = (value: number, u: number) => withBudget(value, 'kV', [{ source: 'noise', u }])

test('middle less start', () => {
  const change = present(earlyChangeKv(level(1.8, 0.03), level(1.6, 0.04)))
  expect(change.value).toBeCloseTo(-0.2, 12)
  expect(change.u).toBeCloseTo(0.05, 12)
})
test('absence is handed on', () =>
  expect(earlyChangeKv(absent('too-short'), level(1, 0.1))).toEqual({ ok: false, why: 'too-short' }))
