import { describe, expect, test } from 'vitest'
import { loadLimits } from '../../src/limits/limits.ts'
import type { Circumstances } from '../../src/verdicts/evidence.ts'
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
  ] as [string, number, number, string][])('%s: %d ± %d -> %s', (...[, value, half, expected]) => {
    expect(
      verdict(
        healthy({ lateRisePct: around(value, half), fallsFirstPct: around(value < -25 ? -12 : 11, 2) }),
      ),
    ).toBe(expected)
  })
})

// Off idle the fellows are the measure; where none is level, the limit is, with what load and speed may add (10 points).
describe('decision rule off a warm idle', () => {
  const at = (running: Circumstances['running'], rise: number, against?: number, half = 5) => {
    const { verdict: said, basis } = judgeCylinder(
      healthy({
        lateRisePct: around(rise, half),
        ...(against !== undefined && { againstLevelPct: around(against, half) }),
        fallsFirstPct: around(rise < -25 ? -12 : 11, 2),
      }),
      { ...nothingKnown, running },
      limits,
    )
    return `${said}, ${basis}`
  }
  test.each<[string, Circumstances['running'], number, number | undefined, string]>([
    ['climbs beside level fellows', 'off idle', 38, 40, 'lean, fellows'],
    ['is as level as they are', 'off idle', -2, 0, 'level, fellows'],
    ['falls below them', 'off idle', -40, -38, 'falling, fellows'],
    ['near the limit', 'off idle', 22, 21, 'borderline, fellows'],
    ['climbs by little, from fellows that sag', 'off idle', 16, 30, 'lean, fellows'],
    ['level, but not against its fellows', 'off idle', 10, 22, 'borderline, fellows'],
    ['all climb plainly', 'off idle', 38, undefined, 'lean, limit'],
    ['all climb by what load may do', 'off idle', 28, undefined, 'borderline, limit'],
    ['alone and level', 'off idle', 3, undefined, 'level, limit'],
    ['all fall', 'off idle', -40, undefined, 'falling, limit'],
    ['all climb under a snap', 'snap', 60, undefined, 'borderline, limit'],
    ['one climbs under a snap', 'snap', 60, 45, 'lean, fellows'],
    ['all fall cold: fed rich on purpose', 'cold', -40, undefined, 'borderline, limit'],
    ['one falls cold', 'cold', -40, -39, 'falling, fellows'],
    ['at idle the limit decides, not the fellows', 'idle', 14, 30, 'level, limit'],
  ])('%s', (...[, running, rise, against, expected]) => {
    expect(at(running, rise, against)).toBe(expected)
  })
})

describe('compression tells falling apart', () => {
  const fallen = healthy({ lateRisePct: around(-40, 5), fallsFirstPct: around(-15, 3) })
  test.each([
    ['low', 'low compression'],
    ['in order', 'rich'],
    [undefined, 'falling'],
  ] as const)('reading %s -> %s', (compression, expected) => {
    expect(verdict(fallen, { ...nothingKnown, compression })).toBe(expected)
  })
  test('a low reading alone makes no verdict on a level line', () => {
    expect(verdict(healthy(), { ...nothingKnown, compression: 'low' })).toBe('level')
  })
})

describe('the circuit is judged before the mixture', () => {
  test('open secondary: no lines and tall', () => {
    expect(
      verdict(
        healthy({
          lateRisePct: undefined,
          noLineSharePct: { value: 100, low: 91, high: 100, unit: '%' },
          noLineTopKv: around(14, 0.5, 'kV'),
          noLineTopExcessKv: around(5, 1, 'kV'),
          noLineTopLastsMs: around(0.08, 0, 'ms'),
        }),
      ),
    ).toBe('open secondary')
  })
  test('no lines but not tall is a misfire, not an open secondary', () => {
    expect(
      verdict(
        healthy({ lateRisePct: undefined, noLineSharePct: { value: 100, low: 91, high: 100, unit: '%' } }),
      ),
    ).toBe('misfiring')
  })
  test('tops cut by the recorder count where the whole half-wave stands there', () => {
    const cut = (lastsMs: number) =>
      healthy({
        lateRisePct: undefined,
        noLineSharePct: { value: 100, low: 77, high: 100, unit: '%' },
        noLineTopKv: around(9.9, 0.1, 'kV'),
        noLineTopExcessKv: { value: 0.1, low: -1.4, high: 0.4, unit: 'kV' },
        noLineTopLastsMs: around(lastsMs, 0, 'ms'),
      })
    expect(verdict(cut(0.16), { ...nothingKnown, noLineTopsClipped: true })).toBe('open secondary')
    expect(verdict(cut(0.005), { ...nothingKnown, noLineTopsClipped: true })).toBe('misfiring')
    expect(verdict(cut(0.16))).toBe('misfiring')
  })
  test('a pickup of unknown ratio tells an open circuit by the share', () => {
    expect(
      verdict(
        healthy({
          lateRisePct: undefined,
          noLineSharePct: around(100, 0),
          noLineTopExcessPct: around(150, 10),
        }),
      ),
    ).toBe('open secondary')
  })
  test('outside resistance on every cylinder shows by its own shape', () => {
    expect(
      verdict(
        healthy({ lateRisePct: around(-24, 2), earlyDropPct: around(28, 2), fallsFirstPct: around(14, 2) }),
      ),
    ).toBe('external resistance')
  })
  test('a line that falls alike before and after its middle is falling, with resistance outside said beside it', () => {
    const judged = judgeCylinder(
      healthy({ lateRisePct: around(-24, 2), earlyDropPct: around(17, 2), fallsFirstPct: around(1, 2) }),
      nothingKnown,
      limits,
    )
    expect([judged.verdict, judged.rule]).toEqual(['falling', 'falling-throughout'])
  })
  test('one empty turn among a dozen withholds level, but not lean', () => {
    const empty = { noLineSharePct: { value: 7.1, low: 0.2, high: 33.9, unit: '%' as const } }
    expect(verdict(healthy(empty))).toBe('borderline')
    expect(verdict(healthy({ ...empty, lateRisePct: around(40, 5) }))).toBe('lean')
  })
  test('a single stray event is no misfire', () => {
    expect(verdict(healthy({ noLineSharePct: { value: 2.5, low: 0.06, high: 13.2, unit: '%' } }))).toBe(
      'level',
    )
  })
  test('outside resistance goes before a line that falls', () => {
    expect(
      verdict(
        healthy({
          lateRisePct: around(-30, 5),
          fallsFirstPct: around(12, 2),
          startExcessPct: around(40, 5),
          earlyDropExcessPct: around(12, 2),
        }),
      ),
    ).toBe('external resistance')
  })
  test('a worn plug (higher line, no steep start) is not outside resistance', () => {
    expect(verdict(healthy({ startExcessPct: around(20, 3), firingKv: around(15, 1, 'kV') }))).toBe('level')
  })
})

describe('not judged', () => {
  test('nine events', () => {
    const judged = judgeCylinder(
      healthy({ eventCount: around(9, 0, '1'), lateRisePct: around(40, 2) }),
      nothingKnown,
      limits,
    )
    expect([judged.verdict, judged.rule]).toEqual(['not judged', 'too-few-events'])
  })
  test('a remark that forbids the mixture lets an open secondary through', () => {
    const remarks = [{ code: 'clipped-line' as const, forbids: ['mixture'] as const, args: {} }]
    expect(verdict(healthy(), { ...nothingKnown, remarks })).toBe('not judged')
    expect(
      verdict(healthy({ noLineSharePct: around(100, 0), noLineTopKv: around(22, 1, 'kV') }), {
        ...nothingKnown,
        remarks,
      }),
    ).toBe('open secondary')
  })
  test('nine spark lines among twelve turns', () => {
    const judged = judgeCylinder(
      healthy({ eventCount: around(12, 0, '1'), lineCount: around(9, 0, '1') }),
      nothingKnown,
      limits,
    )
    expect([judged.verdict, judged.rule]).toEqual(['not judged', 'too-few-lines'])
  })
  test('a remark that forbids all forbids all', () => {
    const remarks = [{ code: 'no-lines' as const, forbids: ['all'] as const, args: {} }]
    expect(verdict(healthy({ lateRisePct: around(40, 2) }), { ...nothingKnown, remarks })).toBe('not judged')
  })
  test('an absent late rise is said, with its reason', () => {
    const judged = judgeCylinder(healthy({ lateRisePct: undefined }), nothingKnown, limits)
    expect(judged.reason).toEqual({
      key: 'verdict.figure-absent',
      args: { why: { key: 'report.absent.not-applicable', args: {} } },
    })
  })
})

test('the order of the rules carries meaning', () => {
  expect(RULES.map((r) => r.id)).toEqual([
    'gated',
    'too-few-events',
    'open-secondary',
    'open-secondary-alone',
    'open-secondary-relative',
    'misfiring',
    'external-resistance',
    'external-shape',
    'external-even',
    'mixture-gated',
    'too-few-lines',
    'lean',
    'lean-of-fellows',
    'lean-off-idle',
    'low-compression-of-fellows',
    'rich-of-fellows',
    'falling-of-fellows',
    'low-compression-throughout',
    'rich-throughout',
    'falling-throughout',
    'low-compression',
    'rich',
    'falling',
    'goes-out',
    'misfire-unsure',
    'level',
    'level-of-fellows',
    'borderline-of-fellows',
    'level-off-idle',
    'borderline',
    'borderline-off-idle',
  ])
})

describe('arcs that go out early', () => {
  const share = { wentOutSharePct: around(30, 15) }
  test('a lean line is lean, whatever share goes out', () =>
    expect(verdict(healthy({ ...share, lateRisePct: around(45, 6) }))).toBe('lean'))
  test('a level line is not in order, nor is it a misfire of the circuit', () => {
    const { verdict: said, rule, reason } = judgeCylinder(healthy(share), nothingKnown, limits)
    expect([said, rule, reason.key]).toEqual(['borderline', 'goes-out', 'verdict.goes-out'])
  })
  test('as many as chance would leave are passed over', () =>
    expect(verdict(healthy({ wentOutSharePct: around(3, 3) }))).toBe('level'))
})
