import { expect, test } from 'vitest'
import { withBudget } from '../../src/metrics/budget.ts'
import { lateRiseKv, lateRisePct } from '../../src/metrics/late-rise.ts'
import { absent } from '../../src/units/measured.ts'
import { present } from './analytic-wave.ts'

const level = (value: number, u: number) => withBudget(value, 'kV', [{ source: 'noise', u }])

test('difference and share, with their uncertainty by propagation', () => {
  const kv = present(lateRiseKv(level(1.6, 0.03), level(2, 0.04)))
  expect(kv.value).toBeCloseTo(0.4, 12)
  expect(kv.u).toBeCloseTo(0.05, 12)
  const pct = present(lateRisePct(level(1.6, 0.03), level(2, 0.04)))
  expect(pct.value).toBeCloseTo(25, 12)
  expect(pct.u).toBeCloseTo(Math.hypot((100 / 1.6) * 0.04, ((100 * 2) / 1.6 ** 2) * 0.03), 12)
})

// An error of gain multiplies both levels.
test('an error of the instrument gain leaves the share as it is', () => {
  const gain = 1.07
  expect(present(lateRisePct(level(1.6 * gain, 0.03), level(2 * gain, 0.04))).value).toBeCloseTo(25, 12)
})

test('absence is handed on; a middle level that may be zero gives no share', () => {
  expect(lateRiseKv(absent('clipped'), level(2, 0.1))).toEqual({ ok: false, why: 'clipped' })
  expect(lateRisePct(level(0.1, 0.05), level(2, 0.1))).toEqual({ ok: false, why: 'not-visible' })
})
