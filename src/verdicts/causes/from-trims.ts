import type { EvidenceKind } from '../../limits/keys.ts'
import { limit, type Limits } from '../../limits/limits.ts'
import type { TestFinding } from '../../test-log/findings.ts'
import { trimOf } from '../../test-log/steps/trim.ts'
import type { Interval } from '../../units/measured.ts'
import type { EngineLayout } from './engine-layout.ts'
import { observe, type Observation } from './observation.ts'

type Side = 'lean' | 'rich' | 'in-order'
/** What trims at idle are weighed as: both banks alike, and one bank alone. */
const IDLE = {
  lean: { engine: 'trim-idle-lean', bank: 'trim-idle-lean-bank' },
  rich: { engine: 'trim-idle-rich', bank: 'trim-idle-rich-bank' },
} as const satisfies Record<Exclude<Side, 'in-order'>, Record<string, EvidenceKind>>

/**
 * Trims at idle where they were not read at speed as well, so that no pattern is known: less than a pattern says.
 * Both banks alike speak of the engine; one bank alone of that bank.
 */
export function fromIdleTrims(
  tests: readonly TestFinding[],
  { engine, stage }: { engine: EngineLayout; stage: TestFinding['stage'] },
  limits: Limits,
): Observation[] {
  const before = tests.flatMap((test, index) =>
    test.step === 'trim' && test.stage === stage ? [{ test, index }] : [],
  )
  if (before.some(({ test }) => test.facts?.some((f) => f.kind === 'trim-pattern'))) return []
  const idle = before.filter(({ test }) => test.condition === 'idle').at(-1)
  if (!idle) return []
  const sides = trimOf(idle.test).map(({ bank, total }) => ({
    bank,
    ...sideOf(total, limit(limits, 'trimHighPct')),
  }))
  const odd = sides.flatMap((s) => (s.side === 'in-order' ? [] : [{ ...s, side: s.side }]))
  const common = { tests: [idle.index], sure: sides.every((s) => s.sure) }
  if (sides.length > 1 && odd.length === 1 && engine.banks) {
    const { bank, side } = odd[0]!
    return [observe(IDLE[side].bank, { ...common, at: { kind: 'bank', bank: String(bank) }, args: { bank } })]
  }
  const all = new Set(sides.map((s) => s.side))
  if (all.size !== 1) return []
  const { side } = sides[0]!
  return [observe(side === 'in-order' ? 'trim-idle-in-order' : IDLE[side].engine, common)]
}

/** Side of a total trim; not sure where its interval reaches the limit. */
function sideOf({ value, low, high }: Interval, limitPct: number): { side: Side; sure: boolean } {
  const side = value > limitPct ? 'lean' : value < -limitPct ? 'rich' : 'in-order'
  const crosses = (edge: number) => low <= edge && high >= edge
  return { side, sure: !crosses(limitPct) && !crosses(-limitPct) }
}

/** Trims at idle beyond the limit before the repair and within it after: the fuel control no longer makes up for a fault. */
export function trimsRecovered(
  tests: readonly TestFinding[],
  limits: Limits,
): { recovered: boolean; tests: readonly number[] } {
  const high = limit(limits, 'trimHighPct')
  const idle = (stage: 'before' | 'after') =>
    tests.flatMap((test, index) =>
      test.step === 'trim' && test.stage === stage && test.condition === 'idle'
        ? [{ index, furthest: Math.max(0, ...trimOf(test).map((t) => Math.abs(t.total.value))) }]
        : [],
    )
  const before = idle('before').filter((t) => t.furthest > high)
  const after = idle('after').at(-1)
  return after && before.length && after.furthest <= high
    ? { recovered: true, tests: [after.index] }
    : { recovered: false, tests: [] }
}
