import { sentence } from '../../texts/messages.ts'
import type { EvidenceKind } from '../../limits/keys.ts'
import { limit, type Limits } from '../../limits/limits.ts'
import type { Interval } from '../../units/measured.ts'
import type { Says, TestFinding } from '../findings.ts'
import type { LogEntry } from '../entry.ts'
import { againstExpected, recorded, worst, type StepContext, type TestGroup } from '../test-group.ts'
import { oneOf, type StepKind } from '../step-kind.ts'
import { withHalf } from './intervals.ts'

/**
 * Fuel trim of each bank: short plus long term, the usual sum.
 *
 * The control multiplies, so the exact total is (1 + s)(1 + l) - 1; it differs from the sum by s l (1 point at 10 % each)
 * and is given beside it. Without the maker's limits a total beyond `trimHighPct` is out of limits.
 * Says nothing on an engine in open loop.
 *
 * @source SAE J1979 PIDs 06 to 09 for the figures; shop-practice for the limit
 */
function readTrim(group: TestGroup, { limits }: StepContext): TestFinding {
  const totals = bankTotals(group, limits)
  const computed: Record<string, Interval> = {}
  const says: Says[] = []
  const own = group.map(againstExpected)
  const withinMaker = own.every((f) => f === 'in limits')
  for (const { bank, total, exactPct, complete } of totals) {
    computed[`totalTrimBank${bank}`] = total
    if (exactPct !== undefined)
      computed[`exactTrimBank${bank}`] = withHalf(exactPct, limit(limits, 'trimReadingPct'), '%')
    const side = sideOf(total, limits)
    says.push(
      withinMaker
        ? sentence('tests.trim.maker-in-order', { bank, total })
        : sentence((complete ? TOTAL : PART)[side], { bank, total, limitPct: limit(limits, 'trimHighPct') }),
    )
  }
  const judged = own.some((f) => f !== undefined)
    ? worst(own)
    : worst(totals.map((t) => (sideOf(t.total, limits) === 'in-order' ? 'in limits' : 'out of limits')))
  const furthest = [...totals].sort((a, b) => Math.abs(b.total.value) - Math.abs(a.total.value))[0]
  return {
    ...recorded(group),
    computed,
    says,
    finding: judged,
    ...(furthest ? { effect: furthest.total } : {}),
  }
}

const TOTAL = { lean: 'tests.trim.lean', rich: 'tests.trim.rich', 'in-order': 'tests.trim.in-order' } as const
const PART = {
  lean: 'tests.trim.part-lean',
  rich: 'tests.trim.part-rich',
  'in-order': 'tests.trim.part-in-order',
} as const

interface BankTotal {
  bank: 1 | 2
  total: Interval<'%'>
  exactPct: number | undefined
  complete: boolean
}

function bankTotals(group: readonly LogEntry[], limits: Limits): BankTotal[] {
  return ([1, 2] as const).flatMap((bank) => {
    const of = (word: string) => group.filter((e) => e.reading === `${word}${bank}`).at(-1)?.value
    const short = of('STFT')
    const long = of('LTFT')
    if (short === undefined && long === undefined) return []
    const complete = short !== undefined && long !== undefined
    const exactPct = complete ? ((1 + short / 100) * (1 + long / 100) - 1) * 100 : undefined
    const total = withExact((short ?? 0) + (long ?? 0), { exactPct, half: limit(limits, 'trimReadingPct') })
    return [{ bank, total, exactPct, complete }]
  })
}

/** The usual sum, with an interval that holds the exact product as surely as the sum. */
function withExact(
  sumPct: number,
  { exactPct = sumPct, half }: { exactPct: number | undefined; half: number },
): Interval<'%'> {
  return {
    value: sumPct,
    low: Math.min(sumPct, exactPct) - half,
    high: Math.max(sumPct, exactPct) + half,
    unit: '%',
  }
}

function sideOf(total: Interval<'%'>, limits: Limits): 'lean' | 'rich' | 'in-order' {
  const high = limit(limits, 'trimHighPct')
  return total.value > high ? 'lean' : total.value < -high ? 'rich' : 'in-order'
}

/** Total trim of each bank that a trim test found, %. */
export function trimOf(test: TestFinding): { bank: 1 | 2; total: Interval }[] {
  return ([1, 2] as const).flatMap((bank) => {
    const total = test.computed[`totalTrimBank${bank}`]
    return total ? [{ bank, total }] : []
  })
}

/** What the trims of several readings are weighed as. */
export const TRIM_PATTERNS = [
  'trims-fall',
  'trims-fall-bank',
  'trims-rise',
  'trims-rise-bank',
  'trims-lean-throughout',
  'trims-lean-throughout-bank',
  'trims-rich',
  'trims-rich-bank',
  'trims-in-order',
  'trim-idle-lean',
  'trim-idle-lean-bank',
  'trim-idle-rich',
  'trim-idle-rich-bank',
  'trim-idle-in-order',
] as const satisfies readonly EvidenceKind[]

export const trim: StepKind = {
  title: 'report.step.trim',
  needs: { reading: true, value: true },
  readings: oneOf(['STFT1', 'LTFT1', 'STFT2', 'LTFT2'], () => ['%']),
  // The control unit itself can state -100 to 99.2 %. @source SAE J1979 PIDs 06 to 09
  usual: [{ unit: '%', least: -60, most: 60, world: [-100, 100] }],
  evidence: [...TRIM_PATTERNS, 'repair-trims-recovered'],
  cautions: ['exhaust', 'moving'],
  read: readTrim,
}
