import { sentence } from '../texts/messages.ts'
import type { WordKey } from '../texts/messages.ts'
import { limit, type Limits } from '../limits/limits.ts'
import type { Addition } from './addition.ts'
import type { Fact } from './fact.ts'
import type { TestFinding } from './findings.ts'
import { trimOf } from './steps/trim.ts'

type Together = Extract<Fact, { kind: 'lambda-trims' }>['together']

const KEYS: Readonly<Record<Together, WordKey>> = {
  'both lean': 'tests.gas.trims-both-lean',
  compensated: 'tests.gas.trims-compensated',
  'gas lean, trims in order': 'tests.gas.trims-gas-lean-only',
  opposed: 'tests.gas.trims-opposed',
}

/**
 * Lambda against the trims of the same stage and condition. Lambda 1 with high trims: the control has made up for the
 * fault. Lean gas with trims in order: air that came in after the engine, or a sensor that misleads the control.
 * Gas and trims on opposite sides: a sensor that sees air of an exhaust leak, or trims out of range.
 *
 * @source shop-practice
 */
export function lambdaAgainstTrims(tests: readonly TestFinding[], limits: Limits): Addition[] {
  return tests.flatMap((test, index) => {
    const side = test.facts?.find((f) => f.kind === 'lambda')?.side
    if (test.step !== 'gas' || side === undefined) return []
    const trims = tests
      .filter((t) => t.step === 'trim' && t.stage === test.stage && t.condition === test.condition)
      .at(-1)
    const totals = trims ? trimOf(trims).map((t) => t.total.value) : []
    if (totals.length === 0) return []
    const together = relation(side, totals, limit(limits, 'trimHighPct'))
    if (!together) return []
    const fact: Fact = { kind: 'lambda-trims', together, stage: test.stage, sure: true }
    return [{ index, says: [sentence(KEYS[together])], facts: [fact] }]
  })
}

function relation(
  side: 'lean' | 'rich' | 'in order',
  totals: readonly number[],
  high: number,
): Together | undefined {
  const up = Math.max(...totals) > high
  const down = Math.min(...totals) < -high
  if (side === 'lean') return up ? 'both lean' : down ? 'opposed' : 'gas lean, trims in order'
  if (side === 'in order') return up || down ? 'compensated' : undefined
  return up ? 'opposed' : undefined
}
