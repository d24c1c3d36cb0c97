import { sentence } from '../texts/messages.ts'
import type { Figure, KeyNeeding, WordKey } from '../texts/messages.ts'
import { limit, type Limits } from '../limits/limits.ts'
import type { Fact, TrimPattern } from './fact.ts'
import type { TestFinding } from './findings.ts'
import { trimOf } from './steps/trim.ts'
import type { Addition } from './addition.ts'

/**
 * Pattern of the trims over conditions. A hole passes nearly the same air at idle and at speed (the flow is choked
 * behind a closed throttle) and so is a smaller share of a larger flow: unmetered air shows high at idle and falls with
 * speed. A delivery that cannot keep up shows the other way round.
 *
 * @source shop-practice for the reading; the orifice sum of air/orifice.ts shows why
 */
export function trimPatterns(tests: readonly TestFinding[], limits: Limits): Addition[] {
  return (['before', 'after'] as const).flatMap((stage) => {
    const trims = tests.flatMap((test, index) =>
      test.step === 'trim' && test.stage === stage && compared(test.condition) ? [{ test, index }] : [],
    )
    const banks = ([1, 2] as const).flatMap((bank) => {
      const found = patternOf(
        bank,
        trims.map((t) => t.test),
        limits,
      )
      return found ? [found] : []
    })
    const last = trims.at(-1)
    return last ? statements(banks, stage).map((s) => ({ ...s, index: last.index })) : []
  })
}

/** `sure`: the pattern is the same at either end of the readings' intervals. */
interface BankPattern {
  bank: 1 | 2
  pattern: TrimPattern
  sure: boolean
}

function patternOf(bank: 1 | 2, trims: readonly TestFinding[], limits: Limits): BankPattern | undefined {
  const at = (wanted: (condition: string) => boolean) =>
    trims
      .filter((t) => t.condition !== undefined && wanted(t.condition))
      .flatMap((t) =>
        trimOf(t)
          .filter((b) => b.bank === bank)
          .map((b) => b.total),
      )
      .at(-1)
  const idle = at((c) => c === 'idle')
  const raised = at(isRaised)
  if (idle === undefined || raised === undefined) return undefined
  const pattern = shapeOf(idle.value, raised.value, limits)
  const ends = [shapeOf(idle.low, raised.low, limits), shapeOf(idle.high, raised.high, limits)]
  return pattern && { bank, pattern, sure: ends.every((end) => end === pattern) }
}

/** @param idle,raised  total trim at idle and at the condition of more air, % */
function shapeOf(idle: number, raised: number, limits: Limits): TrimPattern | undefined {
  const high = limit(limits, 'trimHighPct')
  const change = limit(limits, 'trimChangePct')
  if (idle > high && idle - raised >= change) return 'falls with speed'
  if (raised > high && raised - idle >= change) return 'rises with load'
  if (idle > high && raised > high) return 'lean throughout'
  if (idle < -high || raised < -high) return 'rich'
  return Math.max(idle, raised) <= high ? 'in order' : undefined
}

const compared = (condition: string | undefined): boolean =>
  condition !== undefined && (condition === 'idle' || isRaised(condition))

/** A condition of more air than idle: a stated speed, cruise, load. */
export const isRaised = (condition: string): boolean =>
  /^\d{4} ?rpm$/.test(condition) || /cruise|load/.test(condition)

const ALL: Readonly<Record<TrimPattern, WordKey>> = {
  'falls with speed': 'tests.trim.pattern.falls-with-speed',
  'rises with load': 'tests.trim.pattern.rises-with-load',
  'lean throughout': 'tests.trim.pattern.lean-throughout',
  rich: 'tests.trim.pattern.rich',
  'in order': 'tests.trim.pattern.in-order',
}
const ONE_BANK: Readonly<Record<TrimPattern, KeyNeeding<{ bank: Figure }>>> = {
  'falls with speed': 'tests.trim.pattern.falls-with-speed-one-bank',
  'rises with load': 'tests.trim.pattern.rises-with-load-one-bank',
  'lean throughout': 'tests.trim.pattern.lean-throughout-one-bank',
  rich: 'tests.trim.pattern.rich-one-bank',
  'in order': 'tests.trim.pattern.in-order-one-bank',
}

function statements(banks: readonly BankPattern[], stage: 'before' | 'after'): Omit<Addition, 'index'>[] {
  const patterns = [...new Set(banks.map((b) => b.pattern))]
  return patterns.map((pattern) => {
    const of = banks.filter((b) => b.pattern === pattern)
    const one = banks.length > 1 && of.length === 1
    const fact: Fact = {
      kind: 'trim-pattern',
      stage,
      sure: of.every((b) => b.sure),
      pattern,
      banks: one ? 'one' : 'all',
      bank: one ? of[0]!.bank : undefined,
    }
    const says = one ? sentence(ONE_BANK[pattern], { bank: of[0]!.bank }) : sentence(ALL[pattern])
    return { says: [says], facts: [fact] }
  })
}
