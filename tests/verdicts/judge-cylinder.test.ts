import { describe, expect, test } from 'vitest'
import { loadLimits } from '../../src/limits/limits.ts'
import { judgeCylinder } from '../../src/verdicts/judge-cylinder.ts'
import { RULES } from '../../src/verdicts/rules/index.ts'
import { around, healthy, nothingKnown } from './evidence.ts'

const limits = loadLimits()
const verdict = (evidence = healthy(), about = nothingKnown) => judgeCylinder(evidence, about, limits).verdict

// The decision rule as product.md states it, L = 20 % (ISO/IEC 17025 7.8.6: rule stated and applied).
describe('decision rule on the late rise', () => {
  test.each([
    ['wholly above +L', 31, 6, 'lean'],
    ['low end at the limit', 26, 6, 'borderline'],
    ['crosses +L', 22, 6, 'borderline'],
    ['wholly inside', 3, 6, 'level'],
    ['inside, ends at the limits', 0, 20, 'level'],
    ['crosses -L', -19, 4, 'borderline'],
    ['high end at minus the limit', -26, 6, 'borderline'],
    ['wholly below -L', -31, 6, 'falling'],
    ['so wide that it says nothing', 0, 60, 'borderline'],
  ])('%s: %d ± %d -> %s', (_, value, half, expected) => {
    expect(verdict(healthy({ lateRisePct: around(value, half) }))).toBe(expected)
  })
})

describe('compression tells falling apart', () => {
  const fallen = healthy({ lateRisePct: around(-40, 5) })
  test.each([['low', 'low compression'], ['in order', 'rich'], [undefined, 'falling']] as const)(
    'reading %s -> %s', (compression, expected) => {
      expect(verdict(fallen, { ...nothingKnown, compression })).toBe(expected)
    })
  test('a low reading alone makes no verdict on a level line', () => {
    expect(verdict(healthy(), { ...nothingKnown, compression: 'low' })).toBe('level')
  })
})

describe('the circuit is judged before the mixture', () => {
  test('open secondary: no lines and tall', () => {
    expect(verdict(healthy({ lateRisePct: undefined, noLineSharePct: { value: 100, low: 91, high: 100, unit: '%' }, firingExcessKv: around(12, 2, 'kV') }))).toBe('open secondary')
  })
  test('no lines but not tall is a misfire, not an open secondary', () => {
    expect(verdict(healthy({ lateRisePct: undefined, noLineSharePct: { value: 100, low: 91, high: 100, unit: '%' } }))).toBe('misfiring')
  })
  test('a single stray event is no misfire', () => {
    expect(verdict(healthy({ noLineSharePct: { value: 2.5, low: 0.06, high: 13.2, unit: '%' } }))).toBe('level')
  })
  test('outside resistance goes before a line that falls', () => {
    expect(verdict(healthy({ lateRisePct: around(-30, 5), startExcessPct: around(40, 5), earlyDropExcessPct: around(12, 2) }))).toBe('external resistance')
  })
  test('a worn plug (higher line, no steep start) is not outside resistance', () => {
    expect(verdict(healthy({ startExcessPct: around(20, 3), firingExcessKv: around(6, 1, 'kV') }))).toBe('level')
  })
})

describe('not judged', () => {
  test('nine events', () => {
    const judged = judgeCylinder(healthy({ eventCount: around(9, 0, '1'), lateRisePct: around(40, 2) }), nothingKnown, limits)
    expect([judged.verdict, judged.rule]).toEqual(['not judged', 'too-few-events'])
  })
  test('a remark that forbids the mixture lets an open secondary through', () => {
    const remarks = [{ code: 'line-clipped', forbids: ['mixture'] as const, args: {} }]
    expect(verdict(healthy(), { ...nothingKnown, remarks })).toBe('not judged')
    expect(verdict(healthy({ noLineSharePct: around(100, 0), firingExcessKv: around(12, 2, 'kV') }), { ...nothingKnown, remarks })).toBe('open secondary')
  })
  test('a remark that forbids all forbids all', () => {
    const remarks = [{ code: 'no-sync', forbids: ['all'] as const, args: {} }]
    expect(verdict(healthy({ lateRisePct: around(40, 2) }), { ...nothingKnown, remarks })).toBe('not judged')
  })
  test('an absent late rise is said, with its reason', () => {
    const judged = judgeCylinder(healthy({ lateRisePct: undefined }), nothingKnown, limits)
    expect(judged.reason).toEqual({ key: 'verdict.figure-absent', args: { why: 'not-applicable', figure: 'lateRisePct' } })
  })
})

test('the order of the rules carries meaning', () => {
  expect(RULES.map((r) => r.id)).toEqual([
    'gated', 'too-few-events', 'open-secondary', 'misfiring', 'external-resistance', 'mixture-gated',
    'lean', 'low-compression', 'rich', 'falling', 'level', 'borderline',
  ])
})
