import type { EvidenceKind } from '../../limits/keys.ts'
import type { TestFinding } from '../../test-log/findings.ts'
import { cylinderOf } from '../../test-log/step-kind.ts'
import { swappedPart } from '../../test-log/steps/swap.ts'
import { isRaised } from '../../test-log/trim-pattern.ts'
import type { Candidate } from './candidates.ts'
import type { LedgerContext } from './ledger.ts'
import { observe } from './observation.ts'
import { pointedAt } from './pointed-at.ts'
import { NO_CAUSES, readPlace } from './place-words.ts'
import type { CauseTest } from './schema.ts'

/** Whether a test of the table was done already, at this target. */
export type TestsDone = (id: string, test: CauseTest, target: Candidate | undefined) => boolean

/** Steps of places, and the kind of evidence by whose words they are read. */
const PLACE_KINDS: Readonly<Record<string, EvidenceKind>> = { spray: 'spray-silent', cap: 'cap-unchanged' }

/** A cause of the engine, whichever. */
const WHOLE_ENGINE = { cylinder: undefined, bank: undefined, place: undefined, prior: 0 }

/** So many places sprayed make a round of the intake. */
const PLACES_OF_A_ROUND = 3

/**
 * Recognises from the log which tests were done, in the state they are to be proposed for. A test whose result is
 * unclear or cannot be read counts as not done; a part that was already renewed is left alone.
 *
 * @param tests  those that speak of the state in question
 */
export function testsDone(tests: readonly TestFinding[], context: LedgerContext): TestsDone {
  const at = (target: Candidate, kind: EvidenceKind, place: string | undefined) =>
    place !== undefined &&
    pointedAt(target, observe(kind, { at: { kind: 'places', places: [place] } }), context) === 1
  const worked = workedOn(tests, context)
  return (_, test, target) => {
    if (target && worked(target)) return true
    if (test.step === 'trim') return trimsAtTwoSpeeds(tests)
    const same = tests.filter((t) => t.step === test.step && isOfPart(test.part, t))
    if (test.step === 'spray' && test.at === 'engine')
      return new Set(same.map((t) => t.place)).size >= PLACES_OF_A_ROUND
    // a part blocked off is logged as its place capped
    if (test.step === 'cap' && test.at === 'engine')
      return same.some((t) => test.of.some((id) => at({ ...WHOLE_ENGINE, id }, 'cap-unchanged', t.place)))
    if (test.at === 'engine') return same.some(isTold)
    const kind = PLACE_KINDS[test.step ?? '']
    if (kind !== undefined) {
      const told = test.step === 'spray' ? same.filter(isAnswered) : same
      return target !== undefined && told.some((t) => at(target, kind, t.place))
    }
    return same.some((t) => isTold(t) && names(t, target, context))
  }
}

/** Whether a cause was worked on: a repair of the log is of its place. */
export const workedOn =
  (tests: readonly TestFinding[], context: LedgerContext) =>
  (cause: Candidate): boolean =>
    tests.some(
      (t) =>
        t.step === 'repair' &&
        t.place !== undefined &&
        pointedAt(
          cause,
          observe('repair-word-fixed', { at: { kind: 'places', places: [t.place] } }),
          context,
        ) === 1,
    )

/** Places worked on that are parts of other systems (a battery): that puts nothing right of what was found. The correction is read too. */
export const workElsewhere = (
  tests: readonly TestFinding[],
  context: LedgerContext,
  correction?: string,
): string[] => {
  const among = Object.keys(context.table.causes)
  const places = tests.flatMap((t) => (t.step === 'repair' && t.place !== undefined ? [t.place] : []))
  const all = [...places, ...(correction === undefined ? [] : [correction])]
  return [...new Set(all)].filter((place) => readPlace(place, { ...context, among }).isElsewhere)
}

/** Whether the step of a follow-up is in the log, for its cause. */
export const followUpDone =
  (tests: readonly TestFinding[], context: LedgerContext) =>
  (id: string, target: Candidate | undefined): boolean => {
    const { step } = context.table.follow_ups[id]!
    return step !== undefined && tests.some((t) => t.step === step && isTold(t) && names(t, target, context))
  }

/** A step that serves several parts: the one its row names. */
function isOfPart(part: string | undefined, { step, place, readings }: TestFinding): boolean {
  if (part === undefined) return true
  const reading = readings[0]?.reading
  if (step !== 'swap') return reading === part
  return (
    swappedPart({
      ...(reading === undefined ? {} : { reading }),
      ...(place === undefined ? {} : { place }),
    }) === part
  )
}

const isAnswered = ({ finding }: TestFinding): boolean => finding === 'response' || finding === 'no response'

/** Something came of it: a finding, or figures. */
const isTold = ({ finding, facts, readings }: TestFinding): boolean =>
  finding !== 'recorded' || (facts?.length ?? 0) > 0 || readings.some((r) => r.value !== undefined)

/** The cylinders a test names by reading or place are the target's; one that names none was of all. */
function names(test: TestFinding, target: Candidate | undefined, { table, engine }: LedgerContext): boolean {
  if (!target) return true
  const meaning =
    test.place === undefined ? undefined : readPlace(test.place, { table, engine, among: NO_CAUSES })
  const cylinders = [
    ...test.readings.flatMap((r) => cylinderOf(r.reading) ?? []),
    ...(meaning?.cylinders ?? []),
    ...(test.facts ?? []).flatMap((f) => (f.kind === 'part' ? f.cylinders : [])),
  ]
  if (target.cylinder !== undefined) return cylinders.length === 0 || cylinders.includes(target.cylinder)
  const banks = [
    ...(meaning?.bank === undefined ? [] : [meaning.bank]),
    ...(test.facts ?? []).flatMap((f) => (f.kind === 'part' && f.bank !== undefined ? [String(f.bank)] : [])),
  ]
  return target.bank === undefined || banks.length === 0 || banks.includes(target.bank)
}

function trimsAtTwoSpeeds(tests: readonly TestFinding[]): boolean {
  const conditions = tests.filter((t) => t.step === 'trim').map((t) => t.condition ?? '')
  return conditions.includes('idle') && conditions.some(isRaised)
}
