import type { TestFinding } from '../../test-log/findings.ts'
import { isRaised } from '../../test-log/trim-pattern.ts'
import type { Candidate } from './candidates.ts'
import type { LedgerContext } from './ledger.ts'
import { observe } from './observation.ts'
import { pointedAt } from './pointed-at.ts'
import type { CauseTest } from './schema.ts'

/** Whether a test of the table was done already, at this target. */
export type TestsDone = (id: string, test: CauseTest, target: Candidate | undefined) => boolean

/** Steps of places, and the kind of evidence by whose words they are read. */
const PLACE_KINDS: Readonly<Record<string, string>> = { spray: 'spray-silent', cap: 'cap-unchanged' }

/** A cause of the engine, whichever. */
const WHOLE_ENGINE = { cylinder: undefined, bank: undefined, place: undefined, prior: 0 }

/** So many places sprayed make a round of the intake. */
const PLACES_OF_A_ROUND = 3

/**
 * Recognises from the log which tests of the state before the repair were done. A spray whose result is unclear counts
 * as not done. Tests the log has no step for (parts swapped, plugs read) cannot be seen here and may be named again;
 * a part that was already renewed is left alone.
 */
export function testsDone(tests: readonly TestFinding[], context: LedgerContext): TestsDone {
  const before = tests.filter((t) => t.stage === 'before')
  const at = (target: Candidate, kind: string, place: string | undefined) =>
    place !== undefined &&
    pointedAt(target, observe(kind, { at: { kind: 'places', places: [place] } }), context) === 1
  return (_, test, target) => {
    if (target && before.some((t) => t.step === 'repair' && at(target, 'repair-word-fixed', t.place)))
      return true
    if (test.step === 'trim') return trimsAtTwoSpeeds(before)
    const same = before.filter((t) => t.step === test.step)
    if (test.step === 'spray' && test.at === 'engine')
      return new Set(same.map((t) => t.place)).size >= PLACES_OF_A_ROUND
    // a part blocked off is logged as its place capped
    if (test.step === 'cap' && test.at === 'engine')
      return same.some((t) => test.of.some((id) => at({ ...WHOLE_ENGINE, id }, 'cap-unchanged', t.place)))
    if (test.at !== 'cause') return same.length > 0
    const kind = PLACE_KINDS[test.step ?? '']
    const told = same.filter((t) =>
      test.step === 'spray' ? t.finding === 'response' || t.finding === 'no response' : true,
    )
    return target !== undefined && kind !== undefined && told.some((t) => at(target, kind, t.place))
  }
}

function trimsAtTwoSpeeds(tests: readonly TestFinding[]): boolean {
  const conditions = tests.filter((t) => t.step === 'trim').map((t) => t.condition ?? '')
  return conditions.includes('idle') && conditions.some(isRaised)
}
